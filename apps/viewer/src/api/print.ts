import { graphql } from './graphql.js';

export const PRINT_ADDRESS = graphql(`
  query PrintAddress {
    printAddress {
      address
      basis
      reachable
    }
  }
`);

/** What can be printed, by tag: for choosing and for the preview. */
export const PRINTABLE_FISH = graphql(`
  query PrintableFish($filter: FishFilter, $first: Int!, $after: String) {
    fishList(filter: $filter, sort: { field: TAG, direction: ASC }, first: $first, after: $after) {
      edges {
        node {
          id
          tag
          sex
          hatchDate
        }
      }
      pageInfo {
        hasNextPage
        endCursor
      }
      totalCount
    }
  }
`);

export const PRINTABLE_SPAWNS = graphql(`
  query PrintableSpawns($first: Int!) {
    spawnList(first: $first) {
      edges {
        node {
          id
          tag
          hatchDate
          spawnedOn
        }
      }
      totalCount
    }
  }
`);

export const PRINTABLE_ONE = graphql(`
  query PrintableOne($id: ID!) {
    fish(id: $id) {
      id
      tag
      sex
      hatchDate
    }
  }
`);
