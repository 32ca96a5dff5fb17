import { graphql, type ResultOf } from './graphql.js';

export const FISH_CLAIMS = graphql(`
  query FishClaims($open: Boolean!) {
    fishClaims(first: 100, open: $open) {
      edges {
        node {
          id
          tag
          asTag
          mine
          state
          word
          claimedOn
          answeredOn
          answerWord
          by {
            name
          }
          to {
            name
          }
        }
      }
      totalCount
    }
  }
`);

export type FishClaim = ResultOf<typeof FISH_CLAIMS>['fishClaims']['edges'][number]['node'];

export const CLAIM_FISH = graphql(`
  mutation ClaimFish($input: ClaimFishInput!) {
    claimFish(input: $input) {
      id
    }
  }
`);

export const ANSWER_FISH_CLAIM = graphql(`
  mutation AnswerFishClaim($id: ID!, $confirmed: Boolean!, $word: String) {
    answerFishClaim(id: $id, confirmed: $confirmed, word: $word) {
      id
    }
  }
`);

export const TAKE_BACK_FISH_CLAIM = graphql(`
  mutation TakeBackFishClaim($id: ID!) {
    takeBackFishClaim(id: $id) {
      id
    }
  }
`);
