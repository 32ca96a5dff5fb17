import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';
import { crossClassParts } from './heredity.js';
import {
  judgementParts,
  pairBasisParts,
  pairFishParts,
  reasonParts,
  warningParts,
  worthParts,
} from './judgement.js';

export const PAIRING_CANDIDATES = graphql(
  `
    query PairingCandidates(
      $input: PairingInput!
      $sort: PairingSortField
      $direction: SortDirection
      $first: Int
      $after: String
    ) {
      pairingCandidates(
        input: $input
        sort: $sort
        direction: $direction
        first: $first
        after: $after
      ) {
        totalCount
        maleCount
        femaleCount
        listedCount
        unsexedCount
        awayCount
        basis {
          ...PairBasisParts
        }
        waiting {
          ...ComputationParts
        }
        pageInfo {
          hasNextPage
          endCursor
        }
        edges {
          node {
            inbreedingCoefficient
            inbreedingBasis
            worth {
              ...WorthParts
            }
            discouraged
            plannedPairingId
            sire {
              ...PairFishParts
              line {
                id
                code
              }
            }
            dam {
              ...PairFishParts
              line {
                id
                code
              }
            }
            mainAncestors {
              ...AncestorShareParts
            }
            classes {
              ...CrossClassParts
              shares {
                weight
              }
            }
            traitMeans {
              ...TraitMeanParts
            }
            warnings {
              ...WarningParts
            }
            reasons {
              ...ReasonParts
            }
          }
        }
      }
    }
  `,
  [computationParts, crossClassParts, worthParts, pairBasisParts, ...judgementParts],
);

export type Candidates = ResultOf<typeof PAIRING_CANDIDATES>['pairingCandidates'];
export type Candidate = Candidates['edges'][number]['node'];

export const OUTCROSSES = graphql(
  `
    query Outcrosses($input: OutcrossInput!) {
      outcrosses(input: $input) {
        meanCoancestry
        basis
        fish {
          ...PairFishParts
          line {
            code
          }
        }
        reasons {
          ...ReasonParts
        }
        warnings {
          ...WarningParts
        }
      }
    }
  `,
  [pairFishParts, reasonParts, warningParts],
);

export type Outcross = ResultOf<typeof OUTCROSSES>['outcrosses'][number];
