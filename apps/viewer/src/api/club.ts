import { graphql, type ResultOf } from './graphql.js';

export const CLUB = graphql(`
  query Club($lineId: ID) {
    club(lineId: $lineId) {
      lines {
        id
        code
        name
        keeper {
          id
          name
        }
        mine
        shown
        inUse
        looks
        kinship
        atLeast
      }
      linesLeftOut
      founders {
        fish {
          id
          tag
          sex
          lineCode
          unknownParentOf
        }
        unknownParent
        shares
        chances
        onlyIn
      }
      foundersLeftOut
      drops
    }
  }
`);

export type Club = ResultOf<typeof CLUB>['club'];
export type ClubLine = Club['lines'][number];

export const CLUB_CONSENT = graphql(`
  query ClubConsent($lineId: ID!) {
    clubConsent(lineId: $lineId) {
      lineId
      shown
      counted
    }
  }
`);

export const SET_CLUB_CONSENT = graphql(`
  mutation SetClubConsent($input: ClubConsentInput!) {
    setClubConsent(input: $input) {
      lineId
      shown
      counted
    }
  }
`);

export const CLUB_LOAD = graphql(`
  query ClubLoad {
    clubLoad {
      stage
      keepers
      lines
      broods
      whyNot
      costs {
        column
        perGamete
        low
        high
        verdict
      }
    }
  }
`);

export type PooledStage = ResultOf<typeof CLUB_LOAD>['clubLoad'][number];

export const CLUB_HERITABILITY = graphql(`
  query ClubHeritability($traitId: ID!) {
    clubHeritability(traitId: $traitId) {
      keepers
      lines
      fish
      mean
      low
      high
      fromPrior
      whyNot
    }
  }
`);

const requestParts = graphql(`
  fragment RequestParts on ClubRequest {
    id
    what
    lineId
    lineName
    from {
      id
      name
    }
    to {
      id
      name
    }
    mine
    words
    askedAt
    state
    answer
    endedAt
    handOvers {
      id
      tag
      kind
      state
      side
      toName
      offeredOn
      backOn
      answeredOn
      movedOn
      returnAs
      returnSaidOn
      endedOn
      endedAs
      from {
        id
        name
      }
    }
  }
`);

export type ClubRequest = ResultOf<typeof requestParts>;

export const CLUB_REQUESTS = graphql(
  `
    query ClubRequests($openAlone: Boolean!, $after: String) {
      clubRequests(openAlone: $openAlone, first: 20, after: $after) {
        totalCount
        edges {
          node {
            ...RequestParts
          }
        }
        pageInfo {
          hasNextPage
          endCursor
        }
      }
    }
  `,
  [requestParts],
);

export const ASK_CLUB = graphql(
  `
    mutation AskClub($input: AskClubInput!) {
      askClub(input: $input) {
        ...RequestParts
      }
    }
  `,
  [requestParts],
);

export const ANSWER_CLUB_REQUEST = graphql(
  `
    mutation AnswerClubRequest($input: AnswerClubRequestInput!) {
      answerClubRequest(input: $input) {
        ...RequestParts
      }
    }
  `,
  [requestParts],
);

export const WITHDRAW_CLUB_REQUEST = graphql(
  `
    mutation WithdrawClubRequest($requestId: ID!) {
      withdrawClubRequest(requestId: $requestId) {
        ...RequestParts
      }
    }
  `,
  [requestParts],
);
