import { graphql } from './graphql.js';

/** One change of a record, as it is told. */
export const historyParts = graphql(`
  fragment HistoryParts on RecordChange {
    id
    recordKind
    recordId
    revision
    action
    actId
    by
    at
    changes {
      field
      before
      after
    }
  }
`);

export const RECORD_HISTORY = graphql(
  `
    query RecordHistory($recordKind: RecordKind!, $recordId: ID!, $after: String) {
      history(recordKind: $recordKind, recordId: $recordId, after: $after) {
        edges {
          node {
            ...HistoryParts
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
  [historyParts],
);
