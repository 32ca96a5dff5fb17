import { graphql, type ResultOf } from './graphql.js';

const commentParts = graphql(`
  fragment CommentParts on Comment {
    id
    revision
    words
    writtenAt
    mine
    person {
      id
      name
    }
  }
`);

/** What is commented on. */
export type CommentSubject = { readonly fishId: string } | { readonly spawnId: string };

export type Comment = ResultOf<typeof commentParts>;

export const COMMENTS = graphql(
  `
    query Comments($fishId: ID, $spawnId: ID, $after: String) {
      comments(fishId: $fishId, spawnId: $spawnId, first: 20, after: $after) {
        totalCount
        edges {
          node {
            ...CommentParts
          }
        }
        pageInfo {
          hasNextPage
          endCursor
        }
      }
    }
  `,
  [commentParts],
);

export const ADD_COMMENT = graphql(
  `
    mutation AddComment($input: AddCommentInput!) {
      addComment(input: $input) {
        ...CommentParts
      }
    }
  `,
  [commentParts],
);

export const CORRECT_COMMENT = graphql(
  `
    mutation CorrectComment($input: CorrectCommentInput!) {
      correctComment(input: $input) {
        ...CommentParts
      }
    }
  `,
  [commentParts],
);

export const WITHDRAW_COMMENT = graphql(`
  mutation WithdrawComment($input: WithdrawInput!) {
    withdrawComment(input: $input) {
      id
    }
  }
`);
