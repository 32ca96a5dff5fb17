import { graphql, type ResultOf } from './graphql.js';
import { namedFish } from './named-fish.js';

export const RELATIONSHIP_MAP = graphql(
  `
    query RelationshipMap($lineIds: [ID!], $includeUnsorted: Boolean) {
      relationshipMap(lineIds: $lineIds, includeUnsorted: $includeUnsorted) {
        fish {
          fish {
            ...NamedFishParts
          }
          standsFor
          family
          inbreedingCoefficient
          inbreedingBasis
          meanKinship
        }
        families {
          start
          count
          joinedAt
        }
        familyAt
        coancestry
        inUseCount
        whyNone
      }
    }
  `,
  [namedFish],
);

export type RelationshipMapAnswer = ResultOf<typeof RELATIONSHIP_MAP>['relationshipMap'];
