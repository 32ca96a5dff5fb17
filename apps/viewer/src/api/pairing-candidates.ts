import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';

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
            merit
            discouraged
            plannedPairingId
            sire {
              id
              tag
              sex
              place
              swimsWith {
                id
                name
              }
              line {
                id
                code
              }
            }
            dam {
              id
              tag
              sex
              place
              swimsWith {
                id
                name
              }
              line {
                id
                code
              }
            }
            mainAncestors {
              pathCount
              contribution
              ancestor {
                id
                tag
                sex
              }
            }
            classes {
              phenotype
              fraction
              probability
              expectedCount
              fryForOne95
              shares {
                weight
                fraction
              }
              genotypes {
                genotype
                fraction
              }
            }
            traitMeans {
              sireValue
              damValue
              mean
              trait {
                id
                name
                unit
                kind
                minimum
                maximum
              }
            }
            warnings {
              code
              severity
              text
              basis
              planning
            }
            reasons {
              code
              text
              figure
            }
          }
        }
      }
    }
  `,
  [computationParts],
);

export type Candidates = ResultOf<typeof PAIRING_CANDIDATES>['pairingCandidates'];
export type Candidate = Candidates['edges'][number]['node'];
export type PairWarning = Candidate['warnings'][number];
export type PairReason = Candidate['reasons'][number];
export type TraitMean = Candidate['traitMeans'][number];

export const OUTCROSSES = graphql(`
  query Outcrosses($input: OutcrossInput!) {
    outcrosses(input: $input) {
      meanCoancestry
      fish {
        id
        tag
        sex
        place
        swimsWith {
          id
          name
        }
        line {
          code
        }
      }
      reasons {
        code
        text
        figure
      }
      warnings {
        code
        severity
        text
        basis
        planning
      }
    }
  }
`);

export type Outcross = ResultOf<typeof OUTCROSSES>['outcrosses'][number];
