import { graphql, type ResultOf } from './graphql.js';
import { versionParts } from './score-sheets.js';

/** What the bench needs of one spawn, in one answer, so that it can be taken along whole. */
export const BENCH = graphql(
  `
    query Bench($id: ID!) {
      spawn(id: $id) {
        id
        tag
        hatchDate
        withdrawn {
          reason
        }
        fish {
          id
          tag
          sex
          hatchDate
          disposition
          dispositionDate
          dispositionReason
          revision
          latestScores {
            id
            value
            trait {
              id
            }
          }
        }
        counts {
          stage
          countedOn
          number
        }
        losses {
          id
          kind
          on
          number
          reason
          heritable
          locusId
        }
        classCounts {
          id
          locusIds
          phenotype
          number
          note
        }
      }
      traits {
        id
        name
        kind
        unit
        minimum
        maximum
        fromAgeDays
        toAgeDays
        description
        version
      }
      scoreSheets {
        id
        name
        version
        current {
          ...SheetVersionParts
        }
      }
      loci {
        id
        name
        phenotypes {
          phenotype
        }
      }
    }
  `,
  [versionParts],
);

export type BenchFacts = ResultOf<typeof BENCH>;

export const FISH_NOW = graphql(`
  query FishNow($id: ID!) {
    fish(id: $id) {
      sex
      disposition
      dispositionDate
      dispositionReason
      revision
      withdrawn {
        reason
      }
    }
  }
`);

export const UNDO_ENTRY = graphql(`
  mutation UndoEntry($input: UndoEntryInput!) {
    undoEntry(input: $input) {
      id
      changes {
        recordId
        revision
      }
    }
  }
`);

/** A look on a score sheet; the bench needs no more than that it arrived. */
export const LOOK_ON_SHEET = graphql(`
  mutation LookOnSheet($input: ScoreOnSheetInput!) {
    scoreOnSheet(input: $input) {
      id
    }
  }
`);
