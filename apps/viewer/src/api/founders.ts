import { graphql, type ResultOf } from './graphql.js';

export const NEXT_TAGS = graphql(`
  query NextTags($kind: TaggedKind!, $lineId: ID, $number: Int!) {
    nextTags(kind: $kind, lineId: $lineId, number: $number)
  }
`);

export const RECORD_FOUNDERS = graphql(`
  mutation RecordFounders($input: RecordFoundersInput!) {
    recordFounders(input: $input) {
      id
      tag
    }
  }
`);

/** Whether there is anything in the book yet: what begins it is shown until its first pair. */
export const FIRST_STEPS = graphql(`
  query FirstSteps {
    lines {
      id
      code
      name
    }
    fishList(first: 1) {
      edges {
        node {
          id
        }
      }
      pageInfo {
        hasNextPage
      }
    }
    spawnList(filter: { failed: false }, first: 20) {
      edges {
        node {
          id
          tag
          sire {
            id
          }
          dam {
            id
          }
        }
      }
      pageInfo {
        hasNextPage
      }
    }
    pairings(states: [PLANNED]) {
      id
    }
    scoreSheets {
      id
      name
    }
  }
`);

export type FirstSteps = ResultOf<typeof FIRST_STEPS>;

export const ANY_LINE = graphql(`
  query AnyLine {
    lines {
      id
    }
  }
`);

export const ANY_FISH = graphql(`
  query AnyFish {
    fishList(first: 1) {
      edges {
        node {
          id
        }
      }
      pageInfo {
        hasNextPage
      }
    }
  }
`);
