import { graphql, type ResultOf } from './graphql.js';

const showParts = graphql(`
  fragment ShowParts on ShowResult {
    id
    revision
    show
    onDate
    class
    placing
    points
    note
  }
`);

export type ShowResult = ResultOf<typeof showParts>;

export const FISH_SHOWS = graphql(
  `
    query FishShows($id: ID!) {
      fish(id: $id) {
        id
        showResults {
          ...ShowParts
        }
      }
    }
  `,
  [showParts],
);

export const RECORD_SHOW_RESULT = graphql(`
  mutation RecordShowResult($input: RecordShowResultInput!) {
    recordShowResult(input: $input) {
      id
    }
  }
`);

export const CORRECT_SHOW_RESULT = graphql(`
  mutation CorrectShowResult($input: CorrectShowResultInput!) {
    correctShowResult(input: $input) {
      id
    }
  }
`);

export const WITHDRAW_SHOW_RESULT = graphql(`
  mutation WithdrawShowResult($input: WithdrawInput!) {
    withdrawShowResult(input: $input) {
      id
    }
  }
`);
