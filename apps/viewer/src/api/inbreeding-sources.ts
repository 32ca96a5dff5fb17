import { graphql, type ResultOf } from './graphql.js';
import { namedFish } from './named-fish.js';

export const INBREEDING_SOURCES = graphql(
  `
    query InbreedingSources($id: ID!) {
      fish(id: $id) {
        id
        inbreedingSources {
          coefficient
          byFounder {
            fish {
              ...NamedFishParts
            }
            unknownParent
            contribution
          }
          originCount
          byOrigin {
            ancestor {
              ...NamedFishParts
            }
            contribution
            meanGenerations
          }
          meanGenerations
          complete
          byGenerations
          ancestralInbreeding
        }
      }
    }
  `,
  [namedFish],
);

export type InbreedingSources = ResultOf<typeof INBREEDING_SOURCES>['fish']['inbreedingSources'];
