import { graphql, type ResultOf } from './graphql.js';

export const PREVIEW_IMPORT = graphql(`
  mutation PreviewImport($fileName: String!, $text: String!, $columns: [ImportColumnInput!]) {
    previewImport(fileName: $fileName, text: $text, columns: $columns) {
      token
      fileName
      rowCount
      problemCount
      ready
      newFish
      knownFish
      newLines
      newSpawns
      scores
      sampleRows
      columns {
        header
        role
        traitId
        traitName
        sample
      }
      problems {
        line
        column
        code
        value
        message
        remedy
      }
    }
  }
`);

export type ImportPreview = ResultOf<typeof PREVIEW_IMPORT>['previewImport'];

export const CONFIRM_IMPORT = graphql(`
  mutation ConfirmImport($fileName: String!, $text: String!, $columns: [ImportColumnInput!]!) {
    confirmImport(fileName: $fileName, text: $text, columns: $columns) {
      fish
      spawns
      lines
      scores
      traits
      unchanged
    }
  }
`);

export type ImportResult = ResultOf<typeof CONFIRM_IMPORT>['confirmImport'];

const shareParts = graphql(`
  fragment ShareParts on ShareReport {
    keeperName
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
