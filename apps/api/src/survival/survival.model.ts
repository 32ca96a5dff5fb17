import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';

export const SurvivalStart = {
  EGGS: 'eggs',
  HATCHED: 'hatched',
  FREE_SWIMMING: 'free_swimming',
} as const;
export type SurvivalStart = (typeof SurvivalStart)[keyof typeof SurvivalStart];
registerEnumType(SurvivalStart, {
  name: 'SurvivalStart',
  description: 'The count that a survival curve starts from.',
  valuesMap: {
    EGGS: { description: 'The eggs, mostly an estimate.' },
    HATCHED: { description: 'The fry hatched.' },
    FREE_SWIMMING: { description: 'The fry swimming free.' },
  },
});

export const SurvivalPlace = { BELOW: 'below', WITHIN: 'within', ABOVE: 'above' } as const;
export type SurvivalPlace = (typeof SurvivalPlace)[keyof typeof SurvivalPlace];
registerEnumType(SurvivalPlace, {
  name: 'SurvivalPlace',
  description: 'Where a spawn stands among the person’s past ones.',
  valuesMap: {
    BELOW: { description: 'Below the tenth percentile.' },
    WITHIN: { description: 'Between the tenth and the ninetieth percentile.' },
    ABOVE: { description: 'Above the ninetieth percentile.' },
  },
});

@ObjectType('SurvivalStep', { description: 'One day on which fish left the brood.' })
export class SurvivalStepModel {
  @Field(() => Int, { description: 'Days since the start.' })
  day: number;

  @Field(() => Int, { description: 'Alive and watched just before.' })
  atRisk: number;

  @Field(() => Int, { description: 'Counted as losses that day.' })
  deaths: number;

  @Field(() => Int, { description: 'No longer watched: placed, or still there on the last day.' })
  withdrawn: number;

  @Field(() => Float, { description: 'Estimated share alive after it, 0 to 1.' })
  survival: number;

  @Field(() => Float, { description: 'Greenwood’s standard error.' })
  standardError: number;

  @Field(() => Float, { nullable: true, description: 'Lower end of the 95 % interval.' })
  low: number | null;

  @Field(() => Float, { nullable: true, description: 'Upper end of the 95 % interval.' })
  high: number | null;
}

@ObjectType('SurvivalBandPoint', {
  description: 'How the person’s past spawns spread on one day, each counting alike.',
})
export class SurvivalBandPointModel {
  @Field(() => Int, { description: 'Days since the start.' })
  day: number;

  @Field(() => Int, { description: 'Past spawns still watched.' })
  spawns: number;

  @Field(() => Float, { description: 'Tenth percentile.' })
  low: number;

  @Field(() => Float, { description: 'Middle.' })
  middle: number;

  @Field(() => Float, { description: 'Ninetieth percentile.' })
  high: number;
}

@ObjectType('SurvivalDay', { description: 'Why the curve steps on a day.' })
export class SurvivalDayModel {
  @Field(() => Int, { description: 'Days since the start.' })
  day: number;

  @Field(() => Int, { description: 'Recorded as died.' })
  died: number;

  @Field(() => Int, { description: 'Missing at a count, with no record of why.' })
  missing: number;

  @Field(() => Int, { description: 'Culled.' })
  culled: number;

  @Field(() => Int, { description: 'Placed or moved alive.' })
  placed: number;

  @Field(() => Int, {
    nullable: true,
    description: 'Day of the count before, for what is missing: it went somewhere between.',
  })
  since: number | null;
}

@ObjectType('SurvivalWarning', { description: 'Counts and losses that do not add up.' })
export class SurvivalWarningModel {
  @Field(() => String, { description: 'COUNT_ROSE, COUNT_TOO_EARLY or MORE_LOST_THAN_THERE.' })
  code: string;

  @Field(() => Int, { description: 'Days since the start.' })
  day: number;

  @Field(() => String, { description: 'In words, with what is wrong.' })
  message: string;
}

@ObjectType('SurvivalComparison', { description: 'This spawn against the past ones.' })
export class SurvivalComparisonModel {
  @Field(() => Int, { description: 'Last day that both were watched.' })
  day: number;

  @Field(() => Float, { description: 'Share alive here.' })
  here: number;

  @Field(() => SurvivalBandPointModel, { description: 'The past on that day.' })
  band: SurvivalBandPointModel;

  @Field(() => SurvivalPlace, { description: 'Where it stands.' })
  place: SurvivalPlace;
}

@ObjectType('SurvivalReading', { description: 'One way of counting culls, with the past beside.' })
export class SurvivalReadingModel {
  @Field(() => [SurvivalStepModel], { description: 'The spawn’s own curve.' })
  steps: SurvivalStepModel[];

  @Field(() => [SurvivalStepModel], {
    description: 'All fish of the past spawns as one brood: large spawns weigh more.',
  })
  pooled: SurvivalStepModel[];

  @Field(() => [SurvivalBandPointModel], { description: 'How the past spawns spread.' })
  band: SurvivalBandPointModel[];

  @Field(() => SurvivalComparisonModel, {
    nullable: true,
    description: 'Absent with fewer than two past spawns.',
  })
  comparison: SurvivalComparisonModel | null;
}

@ObjectType('SpawnSurvival', {
  description:
    'Share of a brood alive by age (Kaplan and Meier 1958), from its counts, losses and culls.',
})
export class SpawnSurvivalModel {
  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => SurvivalStart, { description: 'The count it starts from.' })
  from: SurvivalStart;

  @Field(() => [SurvivalStart], { description: 'The counts it could start from.' })
  possible: SurvivalStart[];

  @Field(() => Int, { nullable: true, description: 'Fish at the start; absent when not counted.' })
  started: number | null;

  @Field(() => DateScalar, { nullable: true, description: 'Day of that count.' })
  startedOn: string | null;

  @Field(() => Int, { nullable: true, description: 'Fish still there.' })
  left: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Last day anything was recorded, since the start.',
  })
  lastDay: number | null;

  @Field(() => [SurvivalDayModel], { description: 'What happened, day by day.' })
  days: SurvivalDayModel[];

  @Field(() => [SurvivalWarningModel], { description: 'Counts and losses that do not add up.' })
  warnings: SurvivalWarningModel[];

  @Field(() => SurvivalReadingModel, { nullable: true, description: 'A cull counts as a loss.' })
  allLosses: SurvivalReadingModel | null;

  @Field(() => SurvivalReadingModel, {
    nullable: true,
    description:
      'Culled fish count as moved out alive: what deaths alone did, if the culled would have died like the rest.',
  })
  deathsOnly: SurvivalReadingModel | null;

  @Field(() => Int, { description: 'Past spawns compared with.' })
  pastSpawns: number;

  @Field(() => Int, {
    description: 'Earlier spawns not looked at: the newest 200 are.',
  })
  pastSpawnsPassedOver: number;

  @Field(() => Int, { description: 'Their fish at the start.' })
  pastFish: number;
}
