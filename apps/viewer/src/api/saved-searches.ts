import { graphql, type ResultOf } from './graphql.js';

export const SAVED_SEARCHES = graphql(`
  query SavedSearches {
    savedSearches {
      id
      name
      filter
    }
  }
`);

export const SAVE_SEARCH = graphql(`
  mutation SaveSearch($input: SaveSearchInput!) {
    saveSearch(input: $input) {
      id
      name
      filter
    }
  }
`);

export const REMOVE_SAVED_SEARCH = graphql(`
  mutation RemoveSavedSearch($id: ID!) {
    removeSavedSearch(id: $id) {
      id
      name
      filter
    }
  }
`);

export type SavedSearch = ResultOf<typeof SAVED_SEARCHES>['savedSearches'][number];
