import { graphql, type ResultOf } from './graphql.js';

const dealParts = graphql(`
  fragment DealParts on FishDeal {
    id
    revision
    kind
    onDate
    amount
    currency
    withWhom
    note
    mine
  }
`);

export type FishDeal = ResultOf<typeof dealParts>;

export const FISH_DEALS = graphql(
  `
    query FishDeals($id: ID!) {
      fish(id: $id) {
        id
        deals {
          ...DealParts
        }
      }
    }
  `,
  [dealParts],
);

export const RECORD_FISH_DEAL = graphql(`
  mutation RecordFishDeal($input: RecordFishDealInput!) {
    recordFishDeal(input: $input) {
      id
    }
  }
`);

export const CORRECT_FISH_DEAL = graphql(`
  mutation CorrectFishDeal($input: CorrectFishDealInput!) {
    correctFishDeal(input: $input) {
      id
    }
  }
`);

export const WITHDRAW_FISH_DEAL = graphql(`
  mutation WithdrawFishDeal($input: WithdrawInput!) {
    withdrawFishDeal(input: $input) {
      id
    }
  }
`);
