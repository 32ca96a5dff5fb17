import { graphql, type ResultOf } from './graphql.js';
import { purposeVersionParts } from './line-purpose.js';

export const ROUND = graphql(`
  query Round($id: ID!) {
    round(id: $id) {
      id
      revision
      plannedOn
      purposeVersion
      kinshipLimit
      expectedWorth
      expectedKinship
      expectedInbreeding
      note
      learnt
      withdrawn {
        at
        reason
      }
      line {
        id
        code
        name
      }
      person {
        id
        name
      }
      pairs {
        expectedWorth
        expectedInbreeding
        pairing {
          id
          revision
          maker {
            id
            name
          }
          state
          inbreedingCoefficient
          inbreedingBasis
          sire {
            id
            tag
            name
          }
          dam {
            id
            tag
            name
          }
          spawns {
            id
            tag
            spawnedOn
            hatchDate
            failed
            failedReason
          }
        }
      }
    }
  }
`);

export type Round = ResultOf<typeof ROUND>['round'];
export type RoundPair = Round['pairs'][number];
export type RoundSpawn = RoundPair['pairing']['spawns'][number];

export const ROUND_PURPOSE = graphql(
  `
    query RoundPurpose($lineId: ID!, $version: Int!) {
      linePurpose(lineId: $lineId, version: $version) {
        ...PurposeVersionParts
      }
    }
  `,
  [purposeVersionParts],
);

/** What is on record of a brood, to set beside what was expected of it. */
export const BROOD_CAME = graphql(`
  query BroodCame($id: ID!) {
    spawn(id: $id) {
      id
      counts {
        id
        stage
        number
      }
      losses {
        id
        kind
        number
      }
      fish {
        id
        tag
        disposition
        withdrawn {
          at
        }
        latestScores {
          id
          value
          trait {
            id
          }
        }
        phenotypesSeen {
          id
          locusId
          phenotype
          seenOn
          withdrawn {
            at
          }
        }
      }
    }
  }
`);

export type Brood = ResultOf<typeof BROOD_CAME>['spawn'];

export const ROUNDS_OF_LINE = graphql(`
  query RoundsOfLine($lineId: ID!, $after: String) {
    rounds(lineId: $lineId, first: 10, after: $after) {
      edges {
        node {
          id
          plannedOn
          purposeVersion
          expectedWorth
          expectedInbreeding
          learnt
          pairs {
            pairing {
              id
              state
            }
          }
        }
      }
      pageInfo {
        hasNextPage
        endCursor
      }
      totalCount
    }
  }
`);

export type RoundRow = ResultOf<typeof ROUNDS_OF_LINE>['rounds']['edges'][number]['node'];

export const WITHDRAW_ROUND = graphql(`
  mutation WithdrawRound($input: WithdrawInput!) {
    withdrawRound(input: $input) {
      id
      revision
    }
  }
`);

export const SAY_LEARNT = graphql(`
  mutation SayWhatWasLearnt($input: LessonInput!) {
    sayWhatWasLearnt(input: $input) {
      id
      revision
      learnt
    }
  }
`);
