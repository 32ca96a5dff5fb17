import { graphql, type ResultOf } from './graphql.js';

/** What the bench needs of one spawn, in one answer, so that it can be taken along whole. */
export const BENCH = graphql(`
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
      losses {
        id
        kind
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
    }
    loci {
      id
      name
      phenotypes {
        phenotype
      }
    }
  }
`);

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
