import { graphql, type ResultOf } from './graphql.js';

/** Everything dated that is on record of a fish, as far as whoever asks sees it. */
export const FISH_LIFE = graphql(`
  query FishLife($id: ID!) {
    fish(id: $id) {
      id
      tag
      hatchDate
      disposition
      dispositionDate
      dispositionReason
      origin
      notShared
      spawn {
        id
        tag
      }
      scores {
        id
        scoredOn
        value
        trait {
          name
          kind
          unit
          minimum
          maximum
          grades {
            from
            name
          }
        }
      }
      sheetScorings {
        id
        scoredOn
        withdrawn {
          at
        }
        sheet {
          name
        }
        total {
          total
        }
      }
      phenotypesSeen {
        id
        seenOn
        name
      }
      photos {
        id
        takenOn
        smallPath
        caption
      }
      handOvers {
        id
        kind
        movedOn
        endedOn
        endedAs
        toName
        from {
          name
        }
      }
      spawnsAsParent {
        id
        tag
        spawnedOn
        failed
      }
      showResults {
        id
        show
        onDate
        class
        placing
        points
        note
      }
      deals {
        id
        kind
        onDate
        amount
        currency
        withWhom
      }
    }
  }
`);

export type LivedFish = ResultOf<typeof FISH_LIFE>['fish'];
