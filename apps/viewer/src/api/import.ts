import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';

const causeParts = graphql(`
  fragment CauseParts on ImportCause {
    code
    column
    count
    title
    answers
    byValue
    valueCount
    offered
    values {
      value
      count
      lines
      row
      message
      remedy
      offers
    }
  }
`);

export type ImportCause = ResultOf<typeof causeParts>;

const previewParts = graphql(
  `
    fragment PreviewParts on ImportPreview {
      token
      fileName
      rowCount
      problemCount
      causes {
        ...CauseParts
      }
      doubts {
        ...CauseParts
      }
      repairs {
        dayOrder
        separator
        unmarked
        answers {
          code
          column
          answer
          count
        }
        values {
          column
          from
          to
        }
        cells {
          line
          column
          to
        }
        leftOut
        fish
      }
      separator
      days {
        open
        order
        proof
      }
      unmarked
      remembered {
        fileName
        at
      }
      skippedRows
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
    }
  `,
  [causeParts],
);

export type ImportPreview = ResultOf<typeof previewParts>;
export type ImportRepairs = ImportPreview['repairs'];
export type ImportRepairAnswer = ImportCause['answers'][number];

const runParts = graphql(
  `
    fragment RunParts on ImportRun {
      id
      purpose
      fileName
      preview {
        ...PreviewParts
      }
      result {
        fish
        spawns
        lines
        scores
        traits
        unchanged
        skippedRows
      }
      computation {
        ...ComputationParts
        createdAt
        endedAt
      }
    }
  `,
  [previewParts, computationParts],
);

export type ImportRun = ResultOf<typeof runParts>;
export type ImportResult = NonNullable<ImportRun['result']>;

export const BEGIN_IMPORT = graphql(
  `
    mutation BeginImport($input: BeginImportInput!) {
      beginImport(input: $input) {
        ...RunParts
      }
    }
  `,
  [runParts],
);

export const IMPORT_RUN = graphql(
  `
    query ImportRun($id: ID!) {
      importRun(id: $id) {
        ...RunParts
      }
    }
  `,
  [runParts],
);

export const IMPORT_RUNS = graphql(
  `
    query ImportRuns($after: String) {
      importRuns(after: $after) {
        edges {
          node {
            ...RunParts
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
  [runParts],
);
