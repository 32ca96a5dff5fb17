import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import type { MeritErrorCode, MeritNoteCode } from '@linewright/merit';
import { DateScalar } from '../graphql/date.scalar.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { TraitDefinitionModel } from '../shapes/score.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';
import {
  MeritModelKind,
  MeritNoteKind,
  MeritPart,
  SCORES_TAKEN_IN_SINCE,
  ScoringPlan,
} from './merit-enums.js';
import { HeritabilityPrior } from './merit.inputs.js';
import { MeritRefusalCode } from './remedies.js';

@ObjectType('TraitModelSettings', {
  description: 'With what a trait’s breeding values are worked out.',
})
export class TraitModelSettingsModel {
  @Field(() => Int, {
    description: 'Give it with a change; 0 while these are the usual ones for the kind of trait.',
  })
  revision: number;

  @Field(() => [MeritPart], { description: 'Parts that are wished for.' })
  parts: MeritPart[];

  @Field(() => [ID], {
    description: 'Own traits whose scores of the same fish are to be corrected for.',
  })
  besideTraitIds: string[];

  @Field(() => HeritabilityPrior, {
    description: 'What is taken as likely of the heritability before a score is looked at.',
  })
  prior: HeritabilityPrior;

  @Field(() => [MeritPart], { description: 'Parts that are usual for this kind of trait.' })
  usualParts: MeritPart[];

  @Field(() => HeritabilityPrior, { description: 'What is usual for this kind of trait.' })
  usualPrior: HeritabilityPrior;
}

@ObjectType('FittedPart', {
  description: 'A part of the model that was wished for, and whether the scores let it in.',
})
export class FittedPartModel {
  @Field(() => MeritPart, { description: 'Which.' })
  part: MeritPart;

  @Field(() => Boolean, { description: 'True when it is part of the model.' })
  fitted: boolean;

  @Field(() => String, { nullable: true, description: 'Why it is not in the model.' })
  whyNot: string | null;
}

@ObjectType('BesideTrait', {
  description: 'An own trait that scores were to be corrected for, and what became of it.',
})
export class BesideTraitModel {
  @Field(() => ID, { description: 'That trait.' })
  traitId: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => Boolean, { description: 'True when scores are corrected for it.' })
  fitted: boolean;

  @Field(() => String, { nullable: true, description: 'Why they are not.' })
  whyNot: string | null;

  @Field(() => Int, { description: 'Levels it was taken in; 0 for one taken as a number.' })
  levels: number;

  @Field(() => Int, {
    description:
      'Looks at fish without a score of it: a level of their own, or the mean of the numbers.',
  })
  looksWithout: number;
}

@ObjectType('ScoredCounts', { description: 'On what a trait’s figures rest.' })
export class ScoredCountsModel {
  @Field(() => Int, { description: 'Looks under the trait’s present version.' })
  looks: number;

  @Field(() => Int, { description: 'Looks under earlier versions: not counted.' })
  otherVersions: number;

  @Field(() => Int, { description: 'Looks at fish of unknown age: taken at the mean age.' })
  ageNotKnown: number;

  @Field(() => Int, { description: 'Fish scored.' })
  fish: number;

  @Field(() => Int, { description: 'Broods they are of.' })
  broods: number;

  @Field(() => Int, { description: 'Sires of scored fish, known ones.' })
  sires: number;

  @Field(() => Int, { description: 'Dams of scored fish, known ones.' })
  dams: number;
}

@ObjectType('MeritRefusal', {
  description: 'A figure that these records cannot give; an answer, and no fault.',
})
export class MeritRefusalModel {
  @Field(() => MeritRefusalCode, { description: 'Why, as a code.' })
  code: MeritErrorCode;

  @Field(() => String, { description: 'Why, in words, with the value at fault.' })
  message: string;

  @Field(() => String, { description: 'What to do.' })
  remedy: string;
}

@ObjectType('ProbabilityBand', {
  description: 'Between these bounds it lies with this probability, as likely beyond either end.',
})
export class ProbabilityBandModel {
  @Field(() => Float, { description: 'Such as 0.8.' })
  probability: number;

  @Field(() => Float, { description: 'Lower bound.' })
  low: number;

  @Field(() => Float, { description: 'Upper bound.' })
  high: number;
}

@ObjectType('HeritabilityPoint', { description: 'One cell of the curve over the heritability.' })
export class HeritabilityPointModel {
  @Field(() => Float, { description: 'Middle of the cell.' })
  heritability: number;

  @Field(() => Float, { description: 'Probability of the cell; all add up to 1.' })
  probability: number;
}

@ObjectType('PriorUsed', {
  description: 'What was taken as likely of the heritability before a score was looked at.',
})
export class PriorUsedModel {
  @Field(() => HeritabilityPrior, { description: 'Which.' })
  prior: HeritabilityPrior;

  @Field(() => Float, { description: 'Its mean.' })
  mean: number;

  @Field(() => Float, { description: 'Its standard deviation.' })
  standardDeviation: number;

  @Field(() => String, { nullable: true, description: 'Its source; null for the flat one.' })
  source: string | null;
}

@ObjectType('HeritabilityHere', {
  description:
    'What is known of a heritability in this stock, once scores and prior are put together.',
})
export class HeritabilityHereModel {
  @Field(() => Float, { description: 'Mean.' })
  mean: number;

  @Field(() => Float, { description: 'Standard deviation.' })
  standardDeviation: number;

  @Field(() => [ProbabilityBandModel], { description: 'Bands of 50, 80 and 95 %.' })
  bands: ProbabilityBandModel[];

  @Field(() => [HeritabilityPointModel], { description: 'The curve, from 0 to 1.' })
  curve: HeritabilityPointModel[];

  @Field(() => PriorUsedModel, { description: 'What was taken as likely before.' })
  prior: PriorUsedModel;

  @Field(() => Float, {
    description:
      'Share of what is known that came with the prior, 0 to 1; 1: the scores say nothing.',
  })
  fromPrior: number;
}

@ObjectType('VarianceShare', { description: 'A share of all that varies between looks.' })
export class VarianceShareModel {
  @Field(() => String, {
    description: '`breeding value`, `looks`, `brood`, `place`, `scorer`, or `rest`.',
  })
  name: string;

  @Field(() => Float, { description: 'Its mean share; all add up to 1.' })
  share: number;
}

@ObjectType('MeritEffect', { description: 'What a season, a sex or age does to a score.' })
export class MeritEffectModel {
  @Field(() => String, { description: '`season`, `sex`, `age`, `mean`, `threshold`, or a line.' })
  column: string;

  @Field(() => String, {
    nullable: true,
    description:
      'The season, or the sex; null for age, which is told a day from the mean age of the looks.',
  })
  level: string | null;

  @Field(() => Float, { description: 'The effect.' })
  value: number;

  @Field(() => Float, { nullable: true, description: 'Its standard error.' })
  standardError: number | null;
}

@ObjectType('MeritModelAnswer', { description: 'What one model says of a trait.' })
export class MeritModelAnswerModel {
  @Field(() => MeritModelKind, { description: 'Which model.' })
  kind: MeritModelKind;

  @Field(() => HeritabilityHereModel, {
    description: 'The heritability; of the unseen scale with the threshold model.',
  })
  heritability: HeritabilityHereModel;

  @Field(() => [VarianceShareModel], { description: 'Into what the variance is parted.' })
  shares: VarianceShareModel[];

  @Field(() => [MeritEffectModel], {
    description: 'Effects of seasons, sexes and age, at the mean shares.',
  })
  effects: MeritEffectModel[];
}

@ObjectType('RemlTerm', { description: 'A variance estimated by REML.' })
export class RemlTermModel {
  @Field(() => String, {
    description: '`additive`, `looks`, `brood`, `place`, `scorer` or `residual`.',
  })
  name: string;

  @Field(() => Float, { description: 'The variance, in the trait’s unit squared.' })
  value: number;

  @Field(() => Float, { nullable: true, description: 'Its standard error; none at the edge.' })
  standardError: number | null;

  @Field(() => Boolean, {
    description:
      'Estimated as 0, at the edge of its range: these scores show none, which proves nothing.',
  })
  atEdge: boolean;
}

@ObjectType('RemlEstimate', {
  description:
    'One estimate of the heritability by restricted maximum likelihood, without a prior.',
})
export class RemlEstimateModel {
  @Field(() => Float, { description: 'Heritability.' })
  heritability: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Standard error; null at the edge, where none is known.',
  })
  standardError: number | null;

  @Field(() => Boolean, { description: 'True when the heritability was estimated as 0 or as 1.' })
  atEdge: boolean;

  @Field(() => [RemlTermModel], { description: 'The variances behind it.' })
  terms: RemlTermModel[];

  @Field(() => Int, { description: 'Steps it took.' })
  iterations: number;
}

@ObjectType('MeritNote', { description: 'What to know of figures that are given nevertheless.' })
export class MeritNoteModel {
  @Field(() => MeritNoteKind, { description: 'Which.' })
  code: MeritNoteCode;

  @Field(() => String, { description: 'In words.' })
  message: string;
}

@ObjectType('ModelComparison', {
  description: 'The linear model held against the threshold model.',
})
export class ModelComparisonModel {
  @Field(() => Float, {
    nullable: true,
    description:
      'Rank correlation of their breeding values over scored fish and their parents; null where one tells no two apart.',
  })
  rankCorrelation: number | null;

  @Field(() => Boolean, {
    description: 'True when the two name other fish among the best quarter: look at both.',
  })
  partWays: boolean;
}

@ObjectType('ScoringPlanEffect', {
  description:
    'By how much some scores more are expected to narrow what is known; standard deviations.',
})
export class ScoringPlanEffectModel {
  @Field(() => ScoringPlan, { description: 'What might be scored.' })
  plan: ScoringPlan;

  @Field(() => Int, { description: 'Scores it adds.' })
  scoresAdded: number;

  @Field(() => Float, { description: 'How far off the heritability is now.' })
  heritabilityNow: number;

  @Field(() => Float, { description: 'How far off it is expected to be then.' })
  heritabilityThen: number;

  @Field(() => Float, { description: 'Mean standard error of scored fish now.' })
  valuesNow: number;

  @Field(() => Float, { description: 'Mean standard error of scored fish then.' })
  valuesThen: number;
}

@ObjectType('WorthScoring', {
  description: 'A fish that is worth scoring next, after those before it in the list.',
})
export class WorthScoringModel {
  @Field(() => NamedFishModel, { description: 'The fish.' })
  fish: NamedFishModel;

  @Field(() => Float, { description: 'Mean error of values before its look.' })
  errorBefore: number;

  @Field(() => Float, { description: 'Mean error of values after its look.' })
  errorAfter: number;
}

@ObjectType('TraitMeritResult', { description: 'What the scores of a trait say.' })
export class TraitMeritResultModel {
  @Field(() => MeritModelKind, {
    description:
      'The model whose values are shown: of grades and of yes and no the threshold model.',
  })
  shown: MeritModelKind;

  @Field(() => MeritModelAnswerModel, { nullable: true, description: 'The linear model.' })
  linear: MeritModelAnswerModel | null;

  @Field(() => MeritRefusalModel, { nullable: true, description: 'Why there is no linear one.' })
  linearRefusal: MeritRefusalModel | null;

  @Field(() => MeritModelAnswerModel, {
    nullable: true,
    description:
      'The threshold model; null of measures and counts. Lines are not told apart in it, and its bands hold less than they say with few looks.',
  })
  threshold: MeritModelAnswerModel | null;

  @Field(() => MeritRefusalModel, {
    nullable: true,
    description: 'Why there is no threshold model of a trait of grades.',
  })
  thresholdRefusal: MeritRefusalModel | null;

  @Field(() => ModelComparisonModel, {
    nullable: true,
    description: 'How far the two agree; null when there are not both.',
  })
  comparison: ModelComparisonModel | null;

  @Field(() => RemlEstimateModel, {
    nullable: true,
    description: 'A single estimate, by the linear model, to hold beside it.',
  })
  reml: RemlEstimateModel | null;

  @Field(() => MeritRefusalModel, { nullable: true, description: 'Why there is no such estimate.' })
  remlRefusal: MeritRefusalModel | null;

  @Field(() => [MeritNoteModel], { description: 'What to know of these scores.' })
  notes: MeritNoteModel[];

  @Field(() => [ScoringPlanEffectModel], {
    description: 'What would narrow it; by the linear model.',
  })
  narrowing: ScoringPlanEffectModel[];

  @Field(() => [WorthScoringModel], {
    description:
      'Fish alive here and not scored that are worth scoring next, the most telling first, at most 12.',
  })
  worthScoring: WorthScoringModel[];

  @Field(() => [String], {
    description: 'What was not gone over because there is too much of it, in sentences.',
  })
  leftOut: string[];
}

@ObjectType('BroodSelection', { description: 'How a brood with scored fish was sorted.' })
export class BroodSelectionModel {
  @Field(() => ID, { description: 'The brood.' })
  spawnId: string;

  @Field(() => String, { description: 'Its tag.' })
  tag: string;

  @Field(() => DateScalar, {
    nullable: true,
    description: 'First day on which any of it was decided about; null while none was.',
  })
  sortedOn: string | null;

  @Field(() => Int, { description: 'Young with a record of their own.' })
  recorded: number;

  @Field(() => Int, { description: 'Young scored.' })
  scored: number;

  @Field(() => Int, {
    description: 'Young scored before sorting, or chosen for it by chance: not selected.',
  })
  scoredBeforeSorting: number;

  @Field(() => Int, { description: 'Young that chance chose to be scored.' })
  drawn: number;

  @Field(() => Int, { description: 'Young culled, with a record or without.' })
  culled: number;

  @Field(() => Int, { description: 'Of these, those whose reason names this trait.' })
  culledForTrait: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Mean score of those scored before sorting: of the brood before the cull.',
  })
  meanBeforeSorting: number | null;

  @Field(() => Float, { nullable: true, description: 'Mean score of those in use now.' })
  meanInUse: number | null;
}

@ObjectType('ScoredSelection', { description: 'Whether fish were scored that nobody had chosen.' })
export class ScoredSelectionModel {
  @Field(() => Int, { description: 'Scored fish that are of a brood.' })
  scored: number;

  @Field(() => Int, { description: 'Of these, those scored before sorting or chosen by chance.' })
  scoredBeforeSorting: number;

  @Field(() => Int, { description: 'Culls in these broods.' })
  culled: number;

  @Field(() => Int, { description: 'Culls whose reason names this trait.' })
  culledForTrait: number;

  @Field(() => MeritNoteKind, {
    nullable: true,
    description:
      'MERIT_KEEPERS_ONLY or MERIT_SCORED_AFTER_CULL when fish were scored that somebody had chosen: bands then hold less than they say.',
  })
  warning: MeritNoteCode | null;

  @Field(() => String, { nullable: true, description: 'The warning in words, with figures.' })
  message: string | null;

  @Field(() => [MeritNoteModel], { description: 'All that is to know of how fish were chosen.' })
  notes: MeritNoteModel[];

  @Field(() => [BroodSelectionModel], { description: 'Brood by brood, by tag.' })
  broods: BroodSelectionModel[];
}

@ObjectType('TraitMerit', {
  description: 'What of a trait is passed on, as far as the scores of this stock tell.',
})
export class TraitMeritModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => TraitModelSettingsModel, { description: 'With what it is worked out.' })
  settings: TraitModelSettingsModel;

  @Field(() => [FittedPartModel], { description: 'What of the settings the scores let in.' })
  fittedParts: FittedPartModel[];

  @Field(() => [BesideTraitModel], {
    description: 'Own traits that scores were to be corrected for.',
  })
  besideTraits: BesideTraitModel[];

  @Field(() => ScoredCountsModel, { description: 'On what it rests.' })
  counts: ScoredCountsModel;

  @Field(() => ScoredSelectionModel, { description: 'How selected the scores are.' })
  selection: ScoredSelectionModel;

  @Field(() => TraitMeritResultModel, {
    nullable: true,
    description:
      'What the scores say; null while it is worked out, unless the last solution says something of it.',
  })
  result: TraitMeritResultModel | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'Set while it is worked out: ask again when it is done.',
  })
  waiting: ComputationModel | null;

  @Field(() => Int, {
    nullable: true,
    description: SCORES_TAKEN_IN_SINCE,
  })
  scoresTakenInSince: number | null;

  @Field(() => String, {
    nullable: true,
    description:
      'While figures are being worked out: why the newest records are not in values from the last ones, in a sentence; null where they are, or none were there before.',
  })
  whyNotTakenIn: string | null;
}
