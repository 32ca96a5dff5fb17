import { graphql, type ResultOf, type VariablesOf } from './graphql.js';
import { historyParts } from './history.js';

/** The first of a filtered list, no more than can be chosen at once. */
export const FISH_TO_CHOOSE = graphql(`
  query FishToChoose($filter: FishFilter, $sort: FishSort) {
    fishList(filter: $filter, sort: $sort, first: 200) {
      edges {
        node {
          id
          tag
          withdrawn {
            at
          }
        }
      }
      totalCount
    }
  }
`);

/** How many of some fish fit a filter. */
export const FISH_COUNT = graphql(`
  query FishCount($filter: FishFilter) {
    fishList(filter: $filter, first: 1) {
      totalCount
    }
  }
`);

/** The revisions that an act is meant for, as they are now. */
export const CHOSEN_FISH = graphql(`
  query ChosenFish($ids: [ID!]!) {
    fishList(filter: { ids: $ids, includeWithdrawn: true }, first: 200) {
      edges {
        node {
          id
          tag
          revision
        }
      }
    }
  }
`);

export const PREVIEW_FISH_TOGETHER = graphql(`
  query PreviewFishTogether($input: ChangeFishTogetherInput!) {
    previewFishTogether(input: $input) {
      fish {
        id
        tag
        changes {
          field
          before
          after
        }
      }
      inTheWay {
        id
        tag
        why
      }
    }
  }
`);

export type FishActPreview = ResultOf<typeof PREVIEW_FISH_TOGETHER>['previewFishTogether'];

const actParts = graphql(`
  fragment FishActParts on FishAct {
    id
    what
    fishCount
    by
    at
    takenBackAt
    takenBackBy
  }
`);

export type FishAct = ResultOf<typeof actParts>;

export const CHANGE_FISH_TOGETHER = graphql(
  `
    mutation ChangeFishTogether($input: ChangeFishTogetherInput!) {
      changeFishTogether(input: $input) {
        ...FishActParts
      }
    }
  `,
  [actParts],
);

/** What is done to the chosen fish; which and under which id stands beside it. */
export type FishActInput = Omit<VariablesOf<typeof CHANGE_FISH_TOGETHER>['input'], 'fish' | 'id'>;

export const FISH_ACTS = graphql(
  `
    query FishActs($after: String) {
      fishActs(after: $after) {
        edges {
          node {
            ...FishActParts
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
  [actParts],
);

export const FISH_ACT = graphql(
  `
    query FishAct($id: ID!) {
      fishAct(id: $id) {
        ...FishActParts
        fish {
          id
          tag
          sex
        }
        history {
          ...HistoryParts
        }
        inTheWay {
          id
          tag
          why
        }
      }
    }
  `,
  [actParts, historyParts],
);

export type WholeFishAct = ResultOf<typeof FISH_ACT>['fishAct'];

export const TAKE_BACK_FISH_ACT = graphql(
  `
    mutation TakeBackFishAct($id: ID!) {
      takeBackFishAct(id: $id) {
        ...FishActParts
      }
    }
  `,
  [actParts],
);
