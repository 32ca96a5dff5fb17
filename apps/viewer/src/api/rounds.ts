import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';
import { pairFishParts, passingParts } from './judgement.js';

export const PAIR_PROPOSAL = graphql(
  `
    query PairProposal($input: PairProposalInput!) {
      pairProposal(input: $input) {
        purposeVersion
        hasAims
        problem
        waiting {
          ...ComputationParts
        }
        maleCount
        femaleCount
        standing {
          rounds {
            id
            plannedOn
          }
          waitingCount
          spawnedCount
          passing {
            ...PassingParts
          }
        }
        possibleCount
        broods
        broodsPerFish
        fry
        ceiling
        raisedCeiling
        kinshipLimit
        unreachableLimit
        presentKinship
        worth
        standardError
        worthBound
        kinship
        inbreeding
        frontier {
          worth
          kinship
          inbreeding
          toldApart
        }
        price {
          lost
          toldApart
          instead {
            sire {
              ...PairFishParts
            }
            dam {
              ...PairFishParts
            }
          }
        }
        pairs {
          worth
          standardError
          passing {
            ...PassingParts
          }
          inbreedingCoefficient
          need
          place
          sire {
            ...PairFishParts
          }
          dam {
            ...PairFishParts
          }
          without {
            lost
            toldApart
            instead {
              sire {
                ...PairFishParts
              }
              dam {
                ...PairFishParts
              }
            }
          }
        }
      }
    }
  `,
  [pairFishParts, passingParts, computationParts],
);

export type Proposal = ResultOf<typeof PAIR_PROPOSAL>['pairProposal'];
export type ProposedPair = Proposal['pairs'][number];
export type StandingPairs = NonNullable<Proposal['standing']>;
export type ProposalChange = NonNullable<Proposal['price']>;

export const ADOPT_ROUND = graphql(`
  mutation AdoptRound($input: AdoptRoundInput!) {
    adoptRound(input: $input) {
      id
      pairs {
        pairing {
          id
        }
      }
    }
  }
`);
