import { Field, ID, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Count, CountOrNone, Figure, FigureOrNone } from '../graphql/figure-fields.js';
import { DateScalar } from '../graphql/date.scalar.js';
import { Sex } from '../graphql/enums.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { LineModel } from '../shapes/line.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';
import { RecordModel } from '../shapes/record.model.js';
import { RouteParentModel, RouteScheme } from './line-routes.model.js';

export const PlanState = {
  ON_COURSE: 'on-course',
  OFF_COURSE: 'off-course',
  FINISHED: 'finished',
  REACHED: 'reached',
} as const;
export type PlanState = (typeof PlanState)[keyof typeof PlanState];
registerEnumType(PlanState, {
  name: 'PlanState',
  description: 'How a plan goes.',
  valuesMap: {
    ON_COURSE: { description: 'As it was planned.' },
    OFF_COURSE: { description: 'Something came otherwise; the problems say what.' },
    FINISHED: { description: 'Its last brood has spawned.' },
    REACHED: {
      description:
        'Enough of the young on record of a brood passed what the line asks for, with an F within the ceiling.',
    },
  },
});

export const PlanStepState = { DONE: 'done', NOW: 'now', LATER: 'later' } as const;
export type PlanStepState = (typeof PlanStepState)[keyof typeof PlanStepState];
registerEnumType(PlanStepState, {
  name: 'PlanStepState',
  description: 'How far a brood of a plan is.',
  valuesMap: {
    DONE: { description: 'It has spawned.' },
    NOW: { description: 'Its parents are there to be paired.' },
    LATER: { description: 'It waits for an earlier brood.' },
  },
});

export const PlanProblemKind = {
  LATE: 'late',
  PARENT_GONE: 'parent-gone',
  NO_YOUNG: 'no-young',
  ALLELE_NOT_FOUND: 'allele-not-found',
  INBREEDING: 'inbreeding',
  PURPOSE_CHANGED: 'purpose-changed',
} as const;
export type PlanProblemKind = (typeof PlanProblemKind)[keyof typeof PlanProblemKind];
registerEnumType(PlanProblemKind, {
  name: 'PlanProblemKind',
  description: 'Why a plan is off course.',
  valuesMap: {
    LATE: { description: 'A brood has not spawned long after its day.' },
    PARENT_GONE: { description: 'A fish that is still to be a parent is no longer in use here.' },
    NO_YOUNG: { description: 'A sorted brood has no young of a sex that is still needed.' },
    ALLELE_NOT_FOUND: { description: 'No young of a brood is likely to carry a wanted allele.' },
    INBREEDING: { description: 'F of a brood is above what was planned, or above the ceiling.' },
    PURPOSE_CHANGED: { description: 'A newer version of the line’s purpose was saved.' },
  },
});

@ObjectType('SpawnOfPlan', { description: 'A spawn that is a brood of a plan, or may be one.' })
export class SpawnOfPlanModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'Tag.' })
  tag: string;

  @Field(() => DateScalar, { nullable: true, description: 'Day of spawning, else of hatching.' })
  on: string | null;
}

@ObjectType('PlanStep', {
  description: 'A brood of a plan: what was planned of it, and what came.',
})
export class PlanStepModel {
  @Count('Its place in the plan, from 0.')
  brood: number;

  @Count('Generation, from 1.')
  generation: number;

  @Field(() => RouteParentModel, { description: 'Sire.' })
  sire: RouteParentModel;

  @Field(() => RouteParentModel, { description: 'Dam.' })
  dam: RouteParentModel;

  @Field(() => PlanStepState, { description: 'How far it is.' })
  state: PlanStepState;

  @Field(() => DateScalar, { description: 'Day on which it was to spawn.' })
  due: string;

  @Field(() => SpawnOfPlanModel, { nullable: true, description: 'The spawn that is this brood.' })
  spawn: SpawnOfPlanModel | null;

  @Field(() => Boolean, { description: 'A person said which spawn it is, or that none is.' })
  chosen: boolean;

  @Field(() => [SpawnOfPlanModel], {
    description: 'Spawns of its parents that failed; at most 500.',
  })
  failedSpawns: SpawnOfPlanModel[];

  @CountOrNone('Days later than planned, up to today where it has not spawned; null: it waits.')
  daysLate: number | null;

  @Figure('F that was planned.')
  plannedInbreeding: number;

  @FigureOrNone('F of the spawn, by the pedigree.')
  inbreeding: number | null;

  @CountOrNone('The latest count of its young.')
  counted: number | null;

  @CountOrNone('Young with a record of their own.')
  recorded: number | null;

  @CountOrNone('Of them not sorted yet.')
  unsorted: number | null;

  @CountOrNone('Of those with a record, how many passed what the line was for at adoption.')
  passed: number | null;

  @CountOrNone('Of those with a record, how many did not; of the others it is not known.')
  notPassed: number | null;

  @CountOrNone('Males in use that swim here.')
  males: number | null;

  @CountOrNone('Females in use that swim here.')
  females: number | null;

  @Figure('Chance that the target was reached by this generation, as simulated at adoption.')
  chanceByThen: number;
}

@ObjectType('PlanProblem', { description: 'One reason why a plan is off course.' })
export class PlanProblemModel {
  @Field(() => PlanProblemKind, { description: 'Which.' })
  kind: PlanProblemKind;

  @CountOrNone('Place of the brood in the plan, from 0; null: it is of the whole plan.')
  brood: number | null;

  @CountOrNone('Days after the day planned.')
  days: number | null;

  @Field(() => NamedFishModel, { nullable: true, description: 'The fish that is gone.' })
  fish: NamedFishModel | null;

  @Field(() => Sex, { nullable: true, description: 'The sex of which there is no young.' })
  sex: Sex | null;

  @Field(() => String, { nullable: true, description: 'The allele.' })
  allele: string | null;

  @FigureOrNone('Highest chance among the young to carry it.')
  chance: number | null;

  @FigureOrNone('F of the brood.')
  inbreeding: number | null;

  @FigureOrNone('F that was planned.')
  plannedInbreeding: number | null;

  @CountOrNone('The newer version of what the line is for.')
  version: number | null;
}

@ObjectType('LinePlan', {
  description: 'A route that was adopted as the plan of a line, and how it goes.',
})
export class LinePlanModel extends RecordModel {
  @Field(() => LineModel, { description: 'The line.' })
  line: LineModel;

  @Field(() => DateScalar, { description: 'Day from which it holds.' })
  adoptedOn: string;

  @Count('Version of what the line is for that it was searched for.')
  purposeVersion: number;

  @Field(() => RouteScheme, { description: 'How its generations follow each other.' })
  scheme: RouteScheme;

  @Field(() => [NamedFishModel], { description: 'The fish it begins with; at most 4.' })
  fish: NamedFishModel[];

  @Figure('Share of the young of a brood that have to pass.')
  share: number;

  @Figure('Highest F of a brood.')
  ceiling: number;

  @Count('Young of a brood to raise to the age of sorting.')
  fryPerBrood: number;

  @Figure('Chance that the target is reached, as simulated at adoption.')
  chance: number;

  @Figure('Lower end of its 95 % interval.')
  low: number;

  @Figure('Upper end of its 95 % interval.')
  high: number;

  @Count('Simulated courses.')
  simulations: number;

  @FigureOrNone('Mean of months to the target where it is reached; null: it never was.')
  meanMonths: number | null;

  @Figure('Mean of the young to raise, to the target or the end.')
  fry: number;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => PlanState, { description: 'How it goes.' })
  state: PlanState;

  @CountOrNone('Place of the first brood that reached the target; null: none has.')
  reachedBy: number | null;

  @Count('Generations all broods of which have spawned.')
  generationsDone: number;

  @FigureOrNone(
    'Chance that is left if no brood so far has reached the target, of the simulations at adoption; null: each had reached it by now.',
  )
  chanceLeft: number | null;

  @Field(() => [PlanStepModel], { description: 'Its broods in their order; at most 16.' })
  steps: PlanStepModel[];

  @Field(() => [PlanProblemModel], { description: 'Why it is off course; at most 100.' })
  problems: PlanProblemModel[];

  @Field(() => [SpawnOfPlanModel], {
    description: 'Spawns since then that can be said to be a brood of it; at most 500.',
  })
  spawns: SpawnOfPlanModel[];

  @Count('Spawns since then, those that failed included, of which the earliest 500 are looked at.')
  spawnCount: number;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'What the young may carry, as long as it is worked out.',
  })
  waiting: ComputationModel | null;
}
