import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';
import { routeFish, routeParent } from './line-routes.js';

const spawnOfPlan = graphql(`
  fragment SpawnOfPlanParts on SpawnOfPlan {
    id
    tag
    on
  }
`);

export type SpawnOfPlan = ResultOf<typeof spawnOfPlan>;

const planStep = graphql(
  `
    fragment PlanStepParts on PlanStep {
      brood
      generation
      state
      due
      chosen
      daysLate
      plannedInbreeding
      inbreeding
      counted
      recorded
      unsorted
      passed
      notPassed
      males
      females
      chanceByThen
      sire {
        ...RouteParentParts
      }
      dam {
        ...RouteParentParts
      }
      spawn {
        ...SpawnOfPlanParts
      }
      failedSpawns {
        ...SpawnOfPlanParts
      }
    }
  `,
  [routeParent, spawnOfPlan],
);

export type PlanStep = ResultOf<typeof planStep>;

const planProblem = graphql(
  `
    fragment PlanProblemParts on PlanProblem {
      kind
      brood
      days
      fish {
        ...RouteFishParts
      }
      sex
      allele
      chance
      inbreeding
      plannedInbreeding
      version
    }
  `,
  [routeFish],
);

export type PlanProblem = ResultOf<typeof planProblem>;

export const LINE_PLAN = graphql(
  `
    query LinePlan($lineId: ID!) {
      linePlan(lineId: $lineId) {
        id
        revision
        adoptedOn
        purposeVersion
        scheme
        fish {
          ...RouteFishParts
        }
        share
        ceiling
        fryPerBrood
        chance
        low
        high
        simulations
        meanMonths
        fry
        note
        state
        reachedBy
        generationsDone
        chanceLeft
        steps {
          ...PlanStepParts
        }
        problems {
          ...PlanProblemParts
        }
        spawnCount
        spawns {
          ...SpawnOfPlanParts
        }
        waiting {
          ...ComputationParts
        }
      }
    }
  `,
  [routeFish, planStep, planProblem, spawnOfPlan, computationParts],
);

export type LinePlan = NonNullable<ResultOf<typeof LINE_PLAN>['linePlan']>;

export const ADOPT_ROUTE = graphql(`
  mutation AdoptRoute($input: AdoptRouteInput!) {
    adoptRoute(input: $input) {
      id
    }
  }
`);

export const WITHDRAW_PLAN = graphql(`
  mutation WithdrawPlan($input: WithdrawInput!) {
    withdrawPlan(input: $input) {
      id
      revision
    }
  }
`);

export const SAY_SPAWN_OF_PLAN = graphql(`
  mutation SaySpawnOfPlan($input: SpawnOfPlanInput!) {
    saySpawnOfPlan(input: $input) {
      id
      revision
    }
  }
`);
