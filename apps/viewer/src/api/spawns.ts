import { fishRow } from './fish.js';
import { graphql, type ResultOf } from './graphql.js';

const spawnRow = graphql(`
  fragment SpawnRow on Spawn {
    id
    tag
    spawnedOn
    hatchDate
    failed
    mixedOrigin
    fishCount
    inbreedingCoefficient
    inbreedingBasis
    purpose
    withdrawn {
      at
      reason
    }
    line {
      id
      code
    }
    sire: namedSire {
      id
      tag
      sex
    }
    dam: namedDam {
      id
      tag
      sex
    }
  }
`);

export type SpawnRow = ResultOf<typeof spawnRow>;

export const SPAWN_LIST = graphql(
  `
    query SpawnList($filter: SpawnFilter, $sort: SpawnSort, $first: Int, $after: String) {
      spawnList(filter: $filter, sort: $sort, first: $first, after: $after) {
        edges {
          cursor
          node {
            ...SpawnRow
          }
        }
        pageInfo {
          hasNextPage
          endCursor
        }
        totalCount
      }
    }
  `,
  [spawnRow],
);

export const SPAWN = graphql(
  `
    query Spawn($id: ID!) {
      spawn(id: $id) {
        ...SpawnRow
        note
        failedReason
        revision
        mayChange
        notShared
        person {
          id
          name
          here
        }
        pairing {
          id
          plannedOn
        }
        events {
          id
          kind
          at
          note
        }
        counts {
          id
          stage
          countedOn
          number
          note
        }
        losses {
          id
          kind
          on
          number
          reason
          heritable
          locusId
          note
        }
        classCounts {
          id
          locusIds
          phenotype
          number
          countedOn
          ageDays
          note
        }
      }
    }
  `,
  [spawnRow],
);

export type SpawnFacts = ResultOf<typeof SPAWN>['spawn'];

export const SPAWN_FISH = graphql(
  `
    query SpawnFish($id: ID!) {
      spawn(id: $id) {
        id
        tag
        fish {
          ...FishRow
          dispositionDate
          dispositionReason
        }
      }
    }
  `,
  [fishRow],
);

export const CREATE_SPAWN = graphql(`
  mutation CreateSpawn($input: CreateSpawnInput!) {
    createSpawn(input: $input) {
      id
      tag
    }
  }
`);

export const CORRECT_SPAWN = graphql(`
  mutation CorrectSpawn($input: CorrectSpawnInput!) {
    correctSpawn(input: $input) {
      id
      revision
    }
  }
`);

export const WITHDRAW_SPAWN = graphql(`
  mutation WithdrawSpawn($input: WithdrawInput!) {
    withdrawSpawn(input: $input) {
      id
    }
  }
`);

export const ADD_FISH_TO_SPAWN = graphql(`
  mutation AddFishToSpawn($input: AddFishToSpawnInput!) {
    addFishToSpawn(input: $input) {
      id
      tag
    }
  }
`);

export const RECORD_SIBS = graphql(`
  mutation RecordSibs($fishIds: [ID!]!, $tag: String!) {
    recordSibs(fishIds: $fishIds, tag: $tag) {
      id
      tag
    }
  }
`);

export const RECORD_SPAWN_EVENT = graphql(`
  mutation RecordSpawnEvent($input: SpawnEventInput!) {
    recordSpawnEvent(input: $input) {
      id
      revision
    }
  }
`);

export const RECORD_SPAWN_COUNT = graphql(`
  mutation RecordSpawnCount($input: SpawnCountInput!) {
    recordSpawnCount(input: $input) {
      id
      revision
    }
  }
`);

export const RECORD_SPAWN_LOSS = graphql(`
  mutation RecordSpawnLoss($input: SpawnLossInput!) {
    recordSpawnLoss(input: $input) {
      id
      revision
    }
  }
`);

export const RECORD_CLASS_COUNT = graphql(`
  mutation RecordClassCount($input: ClassCountInput!) {
    recordClassCount(input: $input) {
      id
      revision
    }
  }
`);

export const WITHDRAW_FROM_SPAWN_LOG = graphql(`
  mutation WithdrawFromSpawnLog($input: WithdrawFromSpawnLogInput!) {
    withdrawFromSpawnLog(input: $input) {
      id
      revision
    }
  }
`);
