import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { ComputationModel } from '../jobs/computation.model.js';
import { FishModel } from '../shapes/fish.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';

@ObjectType('GenotypeChance', { description: 'A genotype, and how likely it is.' })
export class GenotypeChanceModel {
  @Field(() => String, { description: 'Two alleles by symbol.' })
  genotype: string;

  @Field(() => String, { description: 'What it looks like.' })
  phenotype: string;

  @Field(() => Float, { description: 'Probability, 0 to 1.' })
  probability: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Standard error of a sampled answer; null when it is exact.',
  })
  standardError: number | null;
}

@ObjectType('AlleleChance', { description: 'The chance that a fish carries an allele.' })
export class AlleleChanceModel {
  @Field(() => String, { description: 'Id of the allele.' })
  alleleId: string;

  @Field(() => String, { description: 'Its symbol.' })
  symbol: string;

  @Field(() => String, { description: 'What it does.' })
  name: string;

  @Field(() => Float, { description: 'Chance of at least one copy.' })
  probability: number;
}

@ObjectType('LocusLeftOut', { description: 'A locus with records of which nothing is computed.' })
export class LocusLeftOutModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Its name; of one not known here, its id.' })
  name: string;

  @Field(() => String, { description: 'Code, such as LOCUS_WITHDRAWN.' })
  code: string;

  @Field(() => String, { description: 'Why, and what would change it.' })
  reason: string;
}

@ObjectType('SetAsideRecord', { description: 'A record that is kept but not counted.' })
export class SetAsideModel {
  @Field(() => ID, { description: 'Id of the record.' })
  recordId: string;

  @Field(() => String, { description: 'Why it is not counted.' })
  why: string;
}

@ObjectType('CarrierLocus', { description: 'What a fish is likely to carry at a locus.' })
export class CarrierLocusModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => [GenotypeChanceModel], {
    description: 'Genotypes, likeliest first; empty while it is worked out or when impossible.',
  })
  genotypes: GenotypeChanceModel[];

  @Field(() => [AlleleChanceModel], { description: 'Chance of carrying each allele.' })
  alleles: AlleleChanceModel[];

  @Field(() => Int, { description: 'Records of the locus in the whole stock.' })
  recordCount: number;

  @Field(() => Boolean, {
    description:
      'False when no record of the fish or its near kin bears on it: the figures then say little more than the founders do.',
  })
  informed: boolean;

  @Field(() => String, { nullable: true, description: 'How it was worked out: exact or sampled.' })
  method: string | null;

  @Field(() => String, {
    description:
      'What was assumed of the alleles of founders: the figures depend on it, so it is shown beside them.',
  })
  founders: string;

  @Field(() => [String], { description: 'What was assumed.' })
  assumed: string[];

  @Field(() => String, {
    nullable: true,
    description: 'Set when the records cannot all be true: look at the contradictions.',
  })
  impossible: string | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation whose answer is waited for.',
  })
  waiting: ComputationModel | null;
}

@ObjectType('FishCarriers', { description: 'What a fish is likely to carry, locus by locus.' })
export class FishCarriersModel {
  @Field(() => [CarrierLocusModel], {
    description: 'Every locus with records that can be computed.',
  })
  loci: CarrierLocusModel[];

  @Field(() => [LocusLeftOutModel], { description: 'Loci that were not worked out.' })
  leftOut: LocusLeftOutModel[];
}

@ObjectType('CarrierReason', { description: 'A record that moved what is thought of a fish.' })
export class CarrierReasonModel {
  @Field(() => ID, { description: 'Id of the record; of a counted brood, its spawn.' })
  recordId: string;

  @Field(() => String, { description: 'How the record stands to the fish, in words.' })
  relation: string;

  @Field(() => String, { description: 'What it says.' })
  text: string;

  @Field(() => Float, {
    description: 'How far the probabilities change when it is removed: 0 not at all, 1 completely.',
  })
  weight: number;

  @Field(() => [GenotypeChanceModel], { description: 'The probabilities without it.' })
  without: GenotypeChanceModel[];

  @Field(() => FishModel, { nullable: true, description: 'The fish it is about.' })
  fish: FishModel | null;

  @Field(() => SpawnModel, { nullable: true, description: 'The spawn it is about.' })
  spawn: SpawnModel | null;
}

@ObjectType('CarrierReasons', { description: 'Why a fish is thought to carry what it is.' })
export class CarrierReasonsModel {
  @Field(() => [GenotypeChanceModel], { description: 'Before any record was looked at.' })
  beforeRecords: GenotypeChanceModel[];

  @Field(() => [GenotypeChanceModel], { description: 'With all records.' })
  now: GenotypeChanceModel[];

  @Field(() => [CarrierReasonModel], { description: 'Records that moved it, strongest first.' })
  reasons: CarrierReasonModel[];

  @Field(() => Int, { description: 'Nearest records that were tried by leaving each out.' })
  tried: number;

  @Field(() => Int, { description: 'Records of its kin within six steps, tried or not.' })
  nearCount: number;

  @Field(() => [SetAsideModel], {
    description: 'Records of the fish and its near kin not counted.',
  })
  setAside: SetAsideModel[];

  @Field(() => [String], { description: 'What was assumed.' })
  assumed: string[];

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation whose answer is waited for.',
  })
  waiting: ComputationModel | null;
}
