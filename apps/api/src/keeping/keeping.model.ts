import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { NotCountedTraitModel } from '../pairing/worth.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';
import { KeepingAdvice, KeepingBasis, KeepingMates } from './keeping.enums.js';
import type { KeepingOfBrood } from './keeping.service.js';

@ObjectType('CarriedAllele', { description: 'A wanted allele as it stands for one young.' })
export class CarriedAlleleModel {
  @Field(() => ID, { description: 'Its locus.' })
  locusId: string;

  @Field(() => ID, { description: 'The allele.' })
  alleleId: string;

  @Field(() => Float, {
    nullable: true,
    description: 'Chance that the young carries it, in one copy or two; null: not known.',
  })
  chance: number | null;

  @Field(() => Float, {
    description: 'How many other living fish of the line are expected to carry it.',
  })
  others: number;

  @Field(() => Float, {
    nullable: true,
    description:
      'Chance that the young carries it and no other living fish of the line does; null: could not be worked out.',
  })
  last: number | null;
}

@ObjectType('YoungToKeep', { description: 'One young of a brood, and what it is to its line.' })
export class YoungToKeepModel {
  @Field(() => NamedFishModel, { description: 'The fish.' })
  fish: NamedFishModel;

  @Field(() => Float, {
    description:
      'Worth as a parent: what its young with the fish that stand for the line are worth on average, in points for one young kept.',
  })
  worth: number;

  @Field(() => Float, { description: 'Its standard error, by what is not known of this young.' })
  standardError: number;

  @Field(() => Int, { description: 'Place by worth among the young of its sex, from 1.' })
  place: number;

  @Field(() => Int, { description: 'How many young of its sex there are.' })
  of: number;

  @Field(() => KeepingAdvice, { description: 'What speaks for it.' })
  advice: (typeof KeepingAdvice)[keyof typeof KeepingAdvice];

  @Field(() => [CarriedAlleleModel], { description: 'The alleles that the line is for.' })
  alleles: CarriedAlleleModel[];
}

@ObjectType('YoungToKeepConnection', { description: 'One page of the young of a brood.' })
export class YoungToKeepConnectionModel extends connectionOf(
  YoungToKeepModel,
  'YoungToKeep',
  'young',
) {}

@ObjectType('AlleleOfLine', { description: 'An allele that a line is for, in its living fish.' })
export class AlleleOfLineModel {
  @Field(() => ID, { description: 'Its locus.' })
  locusId: string;

  @Field(() => String, { description: 'Name of the locus.' })
  locusName: string;

  @Field(() => ID, { description: 'The allele.' })
  alleleId: string;

  @Field(() => String, { description: 'How it is written.' })
  symbol: string;

  @Field(() => String, { description: 'Name of the allele.' })
  name: string;

  @Field(() => Float, {
    description: 'How many living fish of the line are expected to carry it.',
  })
  carriers: number;

  @Field(() => Boolean, {
    description: 'Whether it could be worked out who is the last carrier.',
  })
  lastKnown: boolean;
}

@ObjectType('FishKeptBySex', { description: 'Keepers of a brood by sex.' })
export class FishKeptBySexModel {
  @Field(() => Int, { description: 'Males.' })
  males: number;

  @Field(() => Int, { description: 'Females.' })
  females: number;

  @Field(() => Int, { description: 'Of no known sex.' })
  others: number;
}

@ObjectType('NumberToKeep', { description: 'How many of a brood to keep, and why.' })
export class NumberToKeepModel {
  @Field(() => Int, { description: 'Males to keep.' })
  males: number;

  @Field(() => Int, { description: 'Females to keep.' })
  females: number;

  @Field(() => KeepingBasis, { description: 'What that rests on.' })
  basis: KeepingBasis;

  @Field(() => ID, { nullable: true, description: 'The round, where it rests on one.' })
  roundId: string | null;

  @Field(() => Int, { description: 'Young kept of all broods together.' })
  keep: number;

  @Field(() => Int, { description: 'Broods that share them.' })
  broods: number;

  @Field(() => Int, { description: 'Pairs of the round that came to nothing.' })
  lost: number;
}

@ObjectType('BroodKeeping', { description: 'Whom of a brood to keep, and what that rests on.' })
export class BroodKeepingModel {
  @Field(() => ID, { nullable: true, description: 'Line of the spawn; null: of none.' })
  lineId: string | null;

  @Field(() => Int, {
    description: 'Version of what the line is for; 0 while nobody has said it.',
  })
  purposeVersion: number;

  @Field(() => Boolean, { description: 'Whether anything is worth points to the line.' })
  hasAims: boolean;

  @Field(() => NumberToKeepModel, { nullable: true, description: 'How many to keep.' })
  number: NumberToKeepModel | null;

  @Field(() => FishKeptBySexModel, { description: 'Keepers of the brood already.' })
  kept: FishKeptBySexModel;

  @Field(() => KeepingMates, { description: 'Which fish stand for the line.' })
  matesAre: KeepingMates;

  @Field(() => Int, { description: 'How many fish stand for the line.' })
  mateCount: number;

  @Field(() => Int, {
    description: 'How many such fish there are; of more than 200 the youngest stand for the line.',
  })
  mateTotal: number;

  @Field(() => Int, {
    description:
      'Living fish of the line with a record, this brood among them: last carriers are told among these.',
  })
  living: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Mean kinship of a young with the fish that stand for the line.',
  })
  kinshipWithLine: number | null;

  @Field(() => [AlleleOfLineModel], { description: 'Alleles that the line is for.' })
  alleles: AlleleOfLineModel[];

  @Field(() => [String], { description: 'What could not be worked out, in sentences.' })
  leftOut: readonly string[];

  @Field(() => [NotCountedTraitModel], { description: 'Traits that are not counted.' })
  notCounted: NotCountedTraitModel[];

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation that is waited for.',
  })
  waiting: ComputationModel | null;

  @Field(() => String, {
    nullable: true,
    description: 'Why no young are told; null where they are.',
  })
  problem: string | null;

  /** What the fields of the young are read from. */
  told: KeepingOfBrood;
}
