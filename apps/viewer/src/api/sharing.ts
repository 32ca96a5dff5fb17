import { graphql, type ResultOf } from './graphql.js';

const shareParts = graphql(`
  fragment ShareParts on ShareReport {
    senderName
    maker {
      standing
      words
    }
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
    mutation PreviewShare($file: ID!) {
      previewShare(file: $file) {
        ...ShareParts
      }
    }
  `,
  [shareParts],
);

export const ACCEPT_SHARE = graphql(
  `
    mutation AcceptShare($file: ID!) {
      acceptShare(file: $file) {
        ...ShareParts
      }
    }
  `,
  [shareParts],
);

const recordDifferenceParts = graphql(`
  fragment RecordDifferenceParts on RecordDifferences {
    recordKind
    recordId
    label
    differences {
      part
      versions {
        key
        here
        from
        values {
          field
          value
        }
      }
    }
  }
`);

export type RecordDifferences = ResultOf<typeof recordDifferenceParts>;
export type DifferenceOf = RecordDifferences['differences'][number];

export const DIFFERENCES = graphql(
  `
    query Differences {
      differences(first: 50) {
        edges {
          node {
            ...RecordDifferenceParts
          }
        }
        pageInfo {
          hasNextPage
        }
        totalCount
      }
    }
  `,
  [recordDifferenceParts],
);

export const DECIDE_DIFFERENCE = graphql(`
  mutation DecideDifference($input: DecideDifferenceInput!) {
    decideDifference(input: $input) {
      recordId
    }
  }
`);
