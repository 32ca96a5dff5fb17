import { graphql, type ResultOf } from './graphql.js';

const pastParts = graphql(`
  fragment PastImportParts on PastImport {
    id
    fileName
    by
    at
    fish
    spawns
    lines
    scores
    traits
    takenBackAt
    takenBackReason
  }
`);

export type PastImport = ResultOf<typeof pastParts>;

export const PAST_IMPORTS = graphql(
  `
    query PastImports($after: String) {
      pastImports(after: $after) {
        edges {
          node {
            ...PastImportParts
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
  [pastParts],
);

export const TAKE_BACK_PREVIEW = graphql(`
  query TakeBackPreview($id: ID!) {
    takeBackPreview(id: $id) {
      id
      ready
      resting {
        kind
        count
        names
      }
      changed
      changedNames
    }
  }
`);

export type TakeBackPreview = ResultOf<typeof TAKE_BACK_PREVIEW>['takeBackPreview'];

export const TAKE_BACK = graphql(
  `
    mutation TakeBackImport($id: ID!, $reason: String!) {
      takeBackImport(id: $id, reason: $reason) {
        ...PastImportParts
      }
    }
  `,
  [pastParts],
);
