import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { FitResultModel } from '../shapes/heredity.model.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { LocusLeftOutModel } from './carriers.model.js';

@ObjectType('PossiblePair', { description: 'What a pair may be at a locus.' })
export class PossiblePairModel {
  @Field(() => String, { description: 'Genotype of the sire.' })
  sire: string;

  @Field(() => String, { description: 'Genotype of the dam.' })
  dam: string;

  @Field(() => Float, { description: 'Probability, 0 to 1.' })
  probability: number;

  @Field(() => String, { description: 'Shares of the classes it gives, such as 3:1.' })
  ratio: string;
}

@ObjectType('OutlookClass', { description: 'A class that a planned brood may hold.' })
export class OutlookClassModel {
  @Field(() => String, { description: 'What is seen.' })
  phenotype: string;

  @Field(() => Float, { description: 'Expected share, averaged over what the pair may be.' })
  probability: number;

  @Field(() => Float, { description: 'Chance that this pair can give it at all.' })
  canGive: number;

  @Field(() => Float, { description: 'Smallest share among pairs that may be (over 1 in 1,000).' })
  lowestShare: number;

  @Field(() => Float, { description: 'Largest share among pairs that may be.' })
  highestShare: number;

  @Field(() => Int, { description: 'At least so many in 95 of 100 such broods: lower end.' })
  countLow: number;

  @Field(() => Int, { description: 'Upper end of that range.' })
  countHigh: number;

  @Field(() => Float, { description: 'Chance that at least one fish of the brood shows it.' })
  anyInBrood: number;

  @Field(() => Int, {
    nullable: true,
    description: 'Fry for one with 95 in 100 certainty; null when no number reaches it.',
  })
  fryForOne95: number | null;
}

@ObjectType('PairLocus', { description: 'What a planned pair may give at a locus.' })
export class PairLocusModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => [OutlookClassModel], { description: 'Classes, most frequent first.' })
  classes: OutlookClassModel[];

  @Field(() => [PossiblePairModel], {
    description:
      'What the pair may be, the 12 likeliest; what their probabilities lack of 1 is that of all others.',
  })
  pairs: PossiblePairModel[];

  @Field(() => Float, { description: 'Share of eggs expected to be lost to lethal genotypes.' })
  lostShare: number;

  @Field(() => [String], { description: 'What can go wrong at this locus, from the catalogue.' })
  risks: string[];

  @Field(() => String, {
    description:
      'What was assumed of the alleles of founders: the figures depend on it, so it is shown beside them.',
  })
  founders: string;

  @Field(() => [String], { description: 'What was assumed.' })
  assumed: string[];

  @Field(() => String, {
    nullable: true,
    description:
      'What the pair may be that the classes do not count because it is too rare, and how likely that is together; null where all is counted. Shown beside the figures.',
  })
  rareLeftOut: string | null;

  @Field(() => String, { nullable: true, description: 'How it was worked out.' })
  method: string | null;

  @Field(() => String, { nullable: true, description: 'Set when the records cannot all be true.' })
  impossible: string | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation whose answer is waited for.',
  })
  waiting: ComputationModel | null;
}

@ObjectType('OutlookWarning', { description: 'Something that could go wrong with a pair.' })
export class OutlookWarningModel {
  @Field(() => String, { description: 'stop, caution or note.' })
  severity: string;

  @Field(() => String, { description: 'In a few words.' })
  title: string;

  @Field(() => String, { description: 'In full.' })
  text: string;

  @Field(() => String, { description: 'How well that is known.' })
  basis: string;
}

@ObjectType('PairOutlook', { description: 'What a planned pair may give, from all records.' })
export class PairOutlookModel {
  @Field(() => [PairLocusModel], { description: 'Locus by locus.' })
  loci: PairLocusModel[];

  @Field(() => [OutlookWarningModel], { description: 'What could go wrong, gravest first.' })
  warnings: OutlookWarningModel[];

  @Field(() => [LocusLeftOutModel], { description: 'Loci that were not worked out.' })
  leftOut: LocusLeftOutModel[];
}

@ObjectType('BroodClass', { description: 'A class of a counted brood.' })
export class BroodClassModel {
  @Field(() => String, { description: 'What is seen.' })
  phenotype: string;

  @Field(() => Int, { description: 'Fish counted.' })
  observed: number;

  @Field(() => Float, {
    description: 'Share expected of the parents before this brood was counted.',
  })
  expectedShare: number;

  @Field(() => Int, { description: 'Lower end of what 95 of 100 such broods would hold.' })
  countLow: number;

  @Field(() => Int, { description: 'Upper end of that range.' })
  countHigh: number;
}

@ObjectType('BroodPair', { description: 'What the parents may be, before and after the brood.' })
export class BroodPairModel {
  @Field(() => String, { description: 'Genotype of the sire.' })
  sire: string;

  @Field(() => String, { description: 'Genotype of the dam.' })
  dam: string;

  @Field(() => String, { description: 'Shares of the classes it gives, such as 3:1.' })
  ratio: string;

  @Field(() => Float, { description: 'Probability before this brood was counted.' })
  before: number;

  @Field(() => Float, { description: 'Probability with it.' })
  after: number;
}

@ObjectType('RivalExplanation', { description: 'One explanation of a brood among several.' })
export class RivalModel {
  @Field(() => String, { description: 'The explanation.' })
  name: string;

  @Field(() => Float, { description: 'Share of belief when all were thought equally likely.' })
  weight: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Times less likely it makes the counts than the best; null when it excludes them.',
  })
  timesLessLikely: number | null;

  @Field(() => Float, { description: 'Chance of counts at least as unlikely under it.' })
  pValue: number;
}

@ObjectType('PairBrood', { description: 'One of several broods of the same pair.' })
export class PairBroodModel {
  @Field(() => ID, { description: 'Its spawn.' })
  spawnId: string;

  @Field(() => SpawnModel, { nullable: true, description: 'Its spawn.' })
  spawn: SpawnModel | null;

  @Field(() => [Int], { description: 'Fish counted, in the order of the classes.' })
  counts: number[];

  @Field(() => Float, { description: 'Chance under the ratio, of G of this brood by itself.' })
  pValue: number;
}

@ObjectType('BroodHeterogeneity', {
  description: 'Whether the broods of one pair agree among themselves.',
})
export class BroodHeterogeneityModel {
  @Field(() => [String], { description: 'Classes, in order.' })
  classes: string[];

  @Field(() => String, { description: 'The ratio held against them.' })
  ratio: string;

  @Field(() => [PairBroodModel], { description: 'The broods.' })
  broods: PairBroodModel[];

  @Field(() => Float, { description: 'G of their differences.' })
  g: number;

  @Field(() => Int, { description: 'Its degrees of freedom.' })
  degreesOfFreedom: number;

  @Field(() => Float, { description: 'Chance of broods differing at least so much.' })
  pValue: number;

  @Field(() => String, { description: 'In plain words.' })
  verdict: string;
}

@ObjectType('BroodLocus', { description: 'A counted brood at a locus.' })
export class BroodLocusModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => Int, { description: 'Fish counted in all.' })
  total: number;

  @Field(() => String, {
    description:
      'What was assumed of the alleles of founders: the figures depend on it, so it is shown beside them.',
  })
  founders: string;

  @Field(() => String, { description: 'What was counted, and how it was put together.' })
  counted: string;

  @Field(() => [BroodClassModel], { description: 'Observed against expected.' })
  classes: BroodClassModel[];

  @Field(() => [BroodPairModel], {
    description:
      'What the parents may be, the 8 likeliest; what their probabilities lack of 1 is that of all others.',
  })
  pairs: BroodPairModel[];

  @Field(() => FitResultModel, {
    nullable: true,
    description: 'Test of fit against the likeliest parents.',
  })
  fit: FitResultModel | null;

  @Field(() => [RivalModel], { description: 'Rival explanations, best first.' })
  rivals: RivalModel[];

  @Field(() => String, { description: 'What the counts say of them, in plain words.' })
  verdict: string;

  @Field(() => Int, {
    nullable: true,
    description: 'Young scored that tell the two best apart, with errors of 5 in 100.',
  })
  fryToTell: number | null;

  @Field(() => BroodHeterogeneityModel, {
    nullable: true,
    description: 'Over all counted broods of the pair, when there are several.',
  })
  heterogeneity: BroodHeterogeneityModel | null;

  @Field(() => String, { nullable: true, description: 'Set when the records cannot all be true.' })
  impossible: string | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation whose answer is waited for.',
  })
  waiting: ComputationModel | null;
}

@ObjectType('BroodOutlook', {
  description: 'A counted brood against what its parents lead to expect.',
})
export class BroodOutlookModel {
  @Field(() => [BroodLocusModel], { description: 'Locus by locus.' })
  loci: BroodLocusModel[];

  @Field(() => [String], {
    description: 'Counts and culls of the brood that were set aside, and why.',
  })
  setAside: string[];
}
