import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';
import { TraitDefinitionModel } from '../shapes/score.model.js';
import { MeritModelKind, SCORES_TAKEN_IN_SINCE } from './merit-enums.js';
import { MeritRefusalModel, ProbabilityBandModel } from './trait-merit.model.js';

@ObjectType('FishValue', { description: 'The breeding value of a fish for a trait.' })
export class FishValueModel {
  @Field(() => MeritModelKind, {
    description: 'With which model; values of the threshold model are on an unseen scale.',
  })
  kind: MeritModelKind;

  @Field(() => Float, { description: 'The value, in the unit of the model.' })
  value: number;

  @Field(() => Float, {
    description: 'Standard error: what is unknown of the heritability is in it.',
  })
  standardError: number;

  @Field(() => Float, {
    description: 'Accuracy, 0 to 1: correlation of estimated and true value.',
  })
  accuracy: number;

  @Field(() => [ProbabilityBandModel], { description: 'Bands of 50, 80 and 95 %.' })
  bands: ProbabilityBandModel[];
}

@ObjectType('RankedFish', { description: 'A fish with its value, the best first.' })
export class RankedFishModel extends FishValueModel {
  @Field(() => NamedFishModel, { description: 'The fish.' })
  fish: NamedFishModel;

  @Field(() => Int, { description: 'Looks at it.' })
  ownLooks: number;
}

@ObjectType('RankedFishConnection', { description: 'One page of fish with their values.' })
export class RankedFishConnectionModel extends connectionOf(
  RankedFishModel,
  'RankedFish',
  'fish with values',
) {}

@ObjectType('PlaceAmong', { description: 'Where a fish stands among others, the best being 1.' })
export class PlaceAmongModel {
  @Field(() => Int, { description: 'Its place.' })
  place: number;

  @Field(() => Int, { description: 'How many there are, itself included.' })
  of: number;
}

@ObjectType('ExpectedYoung', {
  description: 'What is expected of its young with an average partner of its line.',
})
export class ExpectedYoungModel {
  @Field(() => Float, {
    description: 'How far the mean of its young is expected above the mean of the line.',
  })
  aboveLine: number;

  @Field(() => Float, {
    description: 'Give or take: in four of five cases that mean lies within so much of it.',
  })
  giveOrTake: number;
}

@ObjectType('FishMerit', { description: 'What a fish passes on of a trait.' })
export class FishMeritModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => FishValueModel, { nullable: true, description: 'Its value; null while waited for.' })
  value: FishValueModel | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Mean value of the fish of its line that are in use; of all when none is.',
  })
  lineMean: number | null;

  @Field(() => ExpectedYoungModel, { nullable: true, description: 'What its young promise.' })
  expectedYoung: ExpectedYoungModel | null;

  @Field(() => Int, { description: 'Looks at the fish itself.' })
  ownLooks: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Mean of its own scores, in the trait’s unit: its value lies nearer to the mean.',
  })
  ownMean: number | null;

  @Field(() => Int, { description: 'Scored relatives, itself not counted.' })
  scoredRelatives: number;

  @Field(() => PlaceAmongModel, { nullable: true, description: 'Among its sibs of one brood.' })
  amongSibs: PlaceAmongModel | null;

  @Field(() => PlaceAmongModel, { nullable: true, description: 'Among the line’s fish in use.' })
  inLine: PlaceAmongModel | null;

  @Field(() => String, {
    nullable: true,
    description:
      'When fish were scored that somebody had chosen: what bands then hold, in words; else null.',
  })
  selectionCaution: string | null;

  @Field(() => MeritRefusalModel, { nullable: true, description: 'Why there is no value.' })
  refusal: MeritRefusalModel | null;

  @Field(() => ComputationModel, { nullable: true, description: 'Set while it is worked out.' })
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

@ObjectType('MeritReason', { description: 'What the scores of one fish do to a value.' })
export class MeritReasonModel {
  @Field(() => NamedFishModel, { description: 'The fish that was scored.' })
  fish: NamedFishModel;

  @Field(() => Float, {
    description: 'Relationship: the share of genes they have alike by descent.',
  })
  relationship: number;

  @Field(() => Int, { description: 'Looks at it.' })
  looks: number;

  @Field(() => Float, {
    description: 'By how much the value rises if all these looks were 1 higher.',
  })
  weight: number;

  @Field(() => Float, { description: 'What they give; all contributions add up to the value.' })
  contribution: number;
}

@ObjectType('MeritReasons', {
  description: 'Why a fish has its value, by the linear model at the mean shares.',
})
export class MeritReasonsModel {
  @Field(() => ID, { description: 'The fish.' })
  fishId: string;

  @Field(() => Float, {
    description: 'The value that the contributions add up to; near the one shown, not the same.',
  })
  value: number;

  @Field(() => [MeritReasonModel], { description: 'The largest parts, at most 30.' })
  reasons: MeritReasonModel[];

  @Field(() => Int, { description: 'How many fish count, listed or not.' })
  fishCount: number;

  @Field(() => Float, { description: 'What those not listed give together.' })
  restContribution: number;
}
