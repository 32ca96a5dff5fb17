import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';

const previewParts = graphql(`
  fragment PreviewParts on ImportPreview {
    token
    fileName
    rowCount
    problemCount
    notes {
      line
      code
      message
    }
    noteCount
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
    problems {
      line
      column
      code
      value
      message
      remedy
    }
  }
`);

export type ImportPreview = ResultOf<typeof previewParts>;

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
