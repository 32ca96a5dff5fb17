import { Field, Float, Int, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../../graphql/date.scalar.js';

@ObjectType('Interval', { description: 'Bounds between which a figure lies with 95 % certainty.' })
export class IntervalModel {
  @Field(() => Float, { description: 'Lower bound.' })
  low: number;

  @Field(() => Float, { description: 'Upper bound.' })
  high: number;
}

@ObjectType('Repeatability', {
  description:
    'Intraclass correlation of repeated scores by one-way analysis of variance, fish as groups.',
})
export class RepeatabilityModel {
  @Field(() => Float, {
    description: 'Share of the variance of single scores that lies between fish; at most 1.',
  })
  repeatability: number;

  @Field(() => IntervalModel, { description: 'Its interval.' })
  interval: IntervalModel;

  @Field(() => Boolean, {
    description:
      'True when fish were scored unequally often, which makes the interval approximate.',
  })
  approximate: boolean;

  @Field(() => Int, { description: 'Fish counted.' })
  fish: number;

  @Field(() => Int, { description: 'Scores counted.' })
  scores: number;

  @Field(() => Float, { description: 'n0: scores a fish, as unequal groups count.' })
  meanScores: number;

  @Field(() => Float, { description: 'Mean square between fish.' })
  meanSquareBetween: number;

  @Field(() => Float, { description: 'Mean square within fish: the variance of repeats.' })
  meanSquareWithin: number;

  @Field(() => Float, { description: 'Variance between fish.' })
  varianceBetween: number;

  @Field(() => Float, { description: 'Chance of such a ratio when fish do not differ at all.' })
  tail: number;
}

@ObjectType('ScorerDifference', {
  description: 'How far one scorer stands above another on fish that both scored.',
})
export class ScorerDifferenceModel {
  @Field(() => String, { description: 'One scorer.' })
  first: string;

  @Field(() => String, { description: 'The other.' })
  second: string;

  @Field(() => Int, { description: 'Fish that both scored.' })
  fish: number;

  @Field(() => Float, { description: 'Mean of first minus second, in the unit of the trait.' })
  difference: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Standard deviation of the differences; null with one fish.',
  })
  deviation: number | null;

  @Field(() => IntervalModel, { nullable: true, description: 'Interval; null with one fish.' })
  interval: IntervalModel | null;
}

@ObjectType('RepeatedScore', { description: 'One of several scores of a fish close in time.' })
export class RepeatedScoreModel {
  @Field(() => String, { description: 'Id of the fish.' })
  fishId: string;

  @Field(() => String, { description: 'Its tag.' })
  tag: string;

  @Field(() => String, { description: 'Who looked.' })
  scorer: string;

  @Field(() => Float, { description: 'The value.' })
  value: number;

  @Field(() => DateScalar, { description: 'Day.' })
  scoredOn: string;
}

@ObjectType('TraitReliability', {
  description: 'How well scores of a trait repeat, and how far its scorers agree.',
})
export class TraitReliabilityModel {
  @Field(() => Int, { description: 'Scores further apart than this are not repeats, in days.' })
  windowDays: number;

  @Field(() => Int, { description: 'Version of the trait whose scores are counted.' })
  traitVersion: number;

  @Field(() => Int, { description: 'Standing scores of older versions, not counted.' })
  otherVersions: number;

  @Field(() => Int, { description: 'Fish scored at all.' })
  fishScored: number;

  @Field(() => Int, { description: 'Fish scored twice or more within the window.' })
  fishRepeated: number;

  @Field(() => RepeatabilityModel, {
    nullable: true,
    description: 'Of the fish scored twice or more; null when there is too little.',
  })
  repeatability: RepeatabilityModel | null;

  @Field(() => String, {
    nullable: true,
    description: 'Why there is no figure, or why it should not be relied on yet.',
  })
  tooFew: string | null;

  @Field(() => [ScorerDifferenceModel], { description: 'Scorers pair by pair.' })
  scorers: ScorerDifferenceModel[];

  @Field(() => [RepeatedScoreModel], {
    description: 'The repeated scores of up to 200 fish, most often scored first.',
  })
  scores: RepeatedScoreModel[];
}
