import { graphql, type ResultOf } from './graphql.js';

export const namedFish = graphql(`
  fragment NamedFishParts on NamedFish {
    id
    unknownParentOf
    tag
    sex
    disposition
    lineCode
  }
`);

export type NamedFish = ResultOf<typeof namedFish>;
