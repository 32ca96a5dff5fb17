import { Field, Float, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { FishModel } from '../shapes/fish.model.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';

@ObjectType('ClashingRecord', { description: 'One of the records that cannot all be true.' })
export class ClashingRecordModel {
  @Field(() => ID, { description: 'Id of the record; of a counted brood, its spawn.' })
  recordId: string;

  @Field(() => String, { description: 'What it says.' })
  text: string;

  @Field(() => String, { description: 'What would settle whether it holds.' })
  remedy: string;

  @Field(() => FishModel, { nullable: true, description: 'The fish it is about.' })
  fish: FishModel | null;

  @Field(() => SpawnModel, { nullable: true, description: 'The spawn it is about.' })
  spawn: SpawnModel | null;
}

@ObjectType('DoubtedParentage', { description: 'A parentage by which the records clash.' })
export class DoubtedParentageModel {
  @Field(() => FishModel, { nullable: true, description: 'The young fish.' })
  young: FishModel | null;

  @Field(() => FishModel, { nullable: true, description: 'Its sire.' })
  sire: FishModel | null;

  @Field(() => FishModel, { nullable: true, description: 'Its dam.' })
  dam: FishModel | null;
}

@ObjectType('Contradiction', {
  description: 'Records of one locus that cannot all be true, none of which can be spared.',
})
export class ContradictionModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => [ClashingRecordModel], { description: 'The records.' })
  records: ClashingRecordModel[];

  @Field(() => Boolean, { description: 'True when no smaller set of records clashes.' })
  smallest: boolean;

  @Field(() => Boolean, {
    description:
      'True when the records would agree if no allele had a frequency of 0 in the founders.',
  })
  restsOnFounders: boolean;

  @Field(() => [DoubtedParentageModel], {
    description: 'Parentages it rests on: a wrong one explains it as well.',
  })
  parentages: DoubtedParentageModel[];
}

@ObjectType('Contradictions', { description: 'What the records of the stock contradict.' })
export class ContradictionsModel {
  @Field(() => [ContradictionModel], { description: 'Contradictions, locus by locus.' })
  found: ContradictionModel[];

  @Field(() => [String], {
    description:
      'Names of loci at which six were found, concerning whatever fish. No more are searched for at once: there may be others.',
  })
  moreAt: string[];

  @Field(() => Int, { description: 'Loci that were looked at.' })
  lociLookedAt: number;

  @Field(() => [ComputationModel], { description: 'Loci still being looked at.' })
  waiting: ComputationModel[];
}

@ObjectType('TestMating', { description: 'A mating that would tell what a fish carries.' })
export class TestMatingModel {
  @Field(() => FishModel, {
    nullable: true,
    description: 'The partner; null for one of stated genotype that you would have to find.',
  })
  partner: FishModel | null;

  @Field(() => String, { description: 'The partner in words, with its likeliest genotype.' })
  name: string;

  @Field(() => Float, {
    nullable: true,
    description: 'Expected loss of uncertainty, in bits; null when it is not known.',
  })
  bits: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Share of the uncertainty that it is expected to remove; null when not known.',
  })
  share: number | null;

  @Field(() => Float, {
    nullable: true,
    description:
      'Share of young that would show it if the fish carries it, those that another locus hides not counted; null when not known.',
  })
  showing: number | null;

  @Field(() => Int, {
    nullable: true,
    description:
      'Fry after which a carrier has given itself away with 95 in 100 certainty; null when out of reach, or not known.',
  })
  fryNeeded: number | null;

  @Field(() => String, {
    nullable: true,
    description:
      'Why the figures are not known, as where another locus may hide the young, and what to record; null when they are.',
  })
  notKnown: string | null;
}

@ObjectType('TestMatings', { description: 'Matings that would tell what a fish carries, ranked.' })
export class TestMatingsModel {
  @Field(() => String, { description: 'The allele in question, by symbol.' })
  allele: string;

  @Field(() => Float, { description: 'Chance that the fish carries it, as things stand.' })
  carries: number;

  @Field(() => Float, { description: 'Uncertainty of its genotype now, in bits.' })
  uncertainty: number;

  @Field(() => [TestMatingModel], { description: 'Most telling first; the first twenty.' })
  matings: TestMatingModel[];

  @Field(() => Int, {
    description: 'Fish in use here that could be its partner, of the line that was asked for.',
  })
  partnerCount: number;

  @Field(() => Int, {
    description: 'Of those, how many were compared; fewer when too much differs between them.',
  })
  judgedCount: number;

  @Field(() => Int, {
    description: 'Of those compared, how many cannot be told: what hides the young is not known.',
  })
  notKnownCount: number;

  @Field(() => [String], { description: 'What was assumed of loci that may hide this one.' })
  assumed: string[];

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation whose answer is waited for.',
  })
  waiting: ComputationModel | null;
}

@InputType({ description: 'Which test matings to rank.' })
export class TestMatingsInput {
  @Field(() => ID, { description: 'The fish in question.' })
  fishId: string;

  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, {
    nullable: true,
    description: 'Allele by id or symbol; the least certain one when absent.',
  })
  allele?: string | null;

  @Field(() => ID, {
    nullable: true,
    description: 'Only partners of this line; of all when absent.',
  })
  lineId?: string | null;

  @Field(() => Int, { defaultValue: 20, description: 'Young that would be scored, at most 100.' })
  fry: number;
}
