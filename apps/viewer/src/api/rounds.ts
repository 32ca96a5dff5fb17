import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';
import { pairFishParts, passingParts } from './judgement.js';

const proposalChange = graphql(
  `
    fragment ProposalChangeParts on ProposalChange {
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
  `,
  [pairFishParts],
);

export type ProposalChange = ResultOf<typeof proposalChange>;

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
        day
        lastDay
        maleCount
        femaleCount
        standing {
          rounds {
            id
            plannedOn
          }
          waitingCount
          byHandCount
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
          ...ProposalChangeParts
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
            ...ProposalChangeParts
          }
        }
      }
    }
  `,
  [pairFishParts, proposalChange, passingParts, computationParts],
);

export type Proposal = ResultOf<typeof PAIR_PROPOSAL>['pairProposal'];
export type ProposedPair = Proposal['pairs'][number];
export type StandingPairs = NonNullable<Proposal['standing']>;

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
