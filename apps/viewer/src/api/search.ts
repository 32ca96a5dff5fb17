import { graphql, type ResultOf } from './graphql.js';

export const SEARCH = graphql(`
  query Search($text: String!) {
    search(text: $text) {
      kind
      hasMore
      found {
        id
        title
        beside
        words
      }
    }
  }
`);

export type FoundGroup = ResultOf<typeof SEARCH>['search'][number];
