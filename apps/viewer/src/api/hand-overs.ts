import { graphql, type ResultOf } from './graphql.js';

export const handOverParts = graphql(`
  fragment HandOverParts on HandOver {
    id
    groupId
    kind
    state
    side
    toName
    offeredOn
    backOn
    word
    healthNote
    laterSpawnsSeen
    withScores
    withPhotos
    withNotes
    tag
    sex
    hatchDate
    lineCode
    answeredOn
    answerWord
    quarantineUntil
    movedOn
    returnAs
    returnSaidOn
    returnWord
    endedOn
    endedAs
    from {
      id
      name
    }
    to {
      id
      name
    }
    fish {
      id
      tag
    }
    withdrawn {
      reason
    }
    request {
      id
      what
      lineName
      mine
      from {
        id
        name
      }
    }
  }
`);

export type HandOver = ResultOf<typeof handOverParts>;

export const HAND_OVERS = graphql(
  `
    query HandOvers($after: String, $fishId: ID) {
      handOvers(first: 100, after: $after, fishId: $fishId) {
        edges {
          cursor
          node {
            ...HandOverParts
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
  [handOverParts],
);

export const HAND_OVERS_DUE = graphql(
  `
    query HandOversDue($on: Date) {
      handOversDue(on: $on) {
        ...HandOverParts
      }
    }
  `,
  [handOverParts],
);

export const LATER_SPAWNS = graphql(`
  query LaterSpawns($id: ID!) {
    handOver(id: $id) {
      id
      laterSpawns {
        id
        day
        sireTag
        damTag
        failed
        counts {
          stage
          countedOn
          number
        }
      }
    }
  }
`);

export type LaterSpawn = ResultOf<typeof LATER_SPAWNS>['handOver']['laterSpawns'][number];

export const FISH_RECEIVERS = graphql(`
  query FishReceivers {
    fishReceivers {
      id
      name
      here
    }
  }
`);

/** A fish, and those of its line that could go with it. */
export const FISH_TO_HAND_OVER = graphql(`
  query FishToHandOver($id: ID!) {
    fish(id: $id) {
      id
      tag
      sex
      person {
        id
      }
      line {
        id
        code
      }
      handOvers {
        id
        state
        kind
        side
        toName
        to {
          id
        }
      }
    }
  }
`);

export type OfferedFish = ResultOf<typeof FISH_TO_HAND_OVER>['fish'];

export const FISH_OF_LINE_TO_HAND_OVER = graphql(`
  query FishOfLineToHandOver($filter: FishFilter) {
    fishList(filter: $filter, sort: { field: TAG }, first: 200) {
      edges {
        node {
          id
          tag
          sex
          disposition
          person {
            id
          }
          swimsWith {
            id
          }
          handOvers {
            id
            state
          }
        }
      }
      totalCount
    }
  }
`);

export const OFFER_FISH = graphql(`
  mutation OfferFish($input: OfferFishInput!) {
    offerFish(input: $input) {
      id
      groupId
    }
  }
`);

export const TAKE_BACK_OFFERS = graphql(`
  mutation TakeBackOffers($ids: [ID!]!, $reason: String) {
    takeBackOffers(ids: $ids, reason: $reason) {
      id
      state
    }
  }
`);

export const ACCEPT_FISH = graphql(`
  mutation AcceptFish($input: AcceptFishInput!) {
    acceptFish(input: $input) {
      id
      state
    }
  }
`);

export const DECLINE_FISH = graphql(`
  mutation DeclineFish($ids: [ID!]!, $word: String) {
    declineFish(ids: $ids, word: $word) {
      id
      state
    }
  }
`);

export const SAY_LOAN_RETURNED = graphql(`
  mutation SayLoanReturned($input: LoanReturnInput!) {
    sayLoanReturned(input: $input) {
      id
      state
    }
  }
`);

export const END_LOAN = graphql(`
  mutation EndLoan($input: LoanReturnInput!) {
    endLoan(input: $input) {
      id
      state
    }
  }
`);

export const PUT_OFF_LOAN = graphql(`
  mutation PutOffLoan($id: ID!, $backOn: Date!) {
    putOffLoan(id: $id, backOn: $backOn) {
      id
      backOn
    }
  }
`);
