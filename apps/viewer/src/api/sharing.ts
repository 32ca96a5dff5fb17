import { graphql, type ResultOf } from './graphql.js';

const shareParts = graphql(`
  fragment ShareParts on ShareReport {
    senderName
    lineCode
    lineName
    added
    updated
    unchanged
    conflicts
    applied
    items {
      recordKind
      recordId
      label
      outcome
      changes {
        field
        before
        after
      }
    }
  }
`);

export type ShareReport = ResultOf<typeof shareParts>;

export const PREVIEW_SHARE = graphql(
  `
    mutation PreviewShare($text: String!) {
      previewShare(text: $text) {
        ...ShareParts
      }
    }
  `,
  [shareParts],
);

export const ACCEPT_SHARE = graphql(
  `
    mutation AcceptShare($text: String!) {
      acceptShare(text: $text) {
        ...ShareParts
      }
    }
  `,
  [shareParts],
);
