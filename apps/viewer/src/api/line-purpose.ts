import { graphql, type ResultOf, type VariablesOf } from './graphql.js';

export const purposeVersionParts = graphql(`
  fragment PurposeVersionParts on LinePurposeVersion {
    version
    at
    by
    note
    content {
      traits {
        traitId
        trait {
          id
          name
          unit
        }
        better
        low
        high
        worth
      }
      looks {
        show {
          locusId
          phenotype
        }
        wanted
        worth
        required
      }
      ceiling
      kinshipRise
      broods
      vessels
      broodsPerFish
      fry
      keep
      earliest
      latest
      inbreedingCost
      rules {
        ages {
          capableFrom
          preferredFrom
          bestUntil
          fertileUntil
        }
        maleRest {
          least
          preferred
        }
        femaleRest {
          least
          preferred
        }
        bodyLengthRatio {
          least
          most
        }
        knownAncestryFrom
      }
    }
  }
`);

export type PurposeVersion = ResultOf<typeof purposeVersionParts>;
export type PurposeContent = PurposeVersion['content'];

export const LINE_PURPOSE = graphql(
  `
    query LinePurpose($id: ID!) {
      line(id: $id) {
        id
        code
        name
        withdrawn {
          at
        }
        purpose {
          ...PurposeVersionParts
        }
      }
      traits {
        id
        name
        kind
        unit
        minimum
        maximum
        higherIsBetter
        grades {
          from
          name
        }
      }
    }
  `,
  [purposeVersionParts],
);

export type PurposeLine = ResultOf<typeof LINE_PURPOSE>['line'];
export type PurposeTrait = ResultOf<typeof LINE_PURPOSE>['traits'][number];

export const LINE_PURPOSES = graphql(
  `
    query LinePurposes($id: ID!, $first: Int!, $after: String) {
      linePurposes(lineId: $id, first: $first, after: $after) {
        edges {
          cursor
          node {
            ...PurposeVersionParts
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
  [purposeVersionParts],
);

export const SAY_PURPOSE = graphql(
  `
    mutation SayWhatLineIsFor($input: SayWhatLineIsForInput!) {
      sayWhatLineIsFor(input: $input) {
        ...PurposeVersionParts
      }
    }
  `,
  [purposeVersionParts],
);

export type SentPurpose = VariablesOf<typeof SAY_PURPOSE>['input']['content'];

/** Fish of a line, as they are compared two at a time. */
export const COMPARED_FISH = graphql(`
  query ComparedFish($lineId: ID!) {
    fishList(
      filter: { lineIds: [$lineId], inUse: true }
      sort: { field: TAG, direction: ASC }
      first: 60
    ) {
      totalCount
      edges {
        node {
          id
          tag
          name
          sex
          hatchDate
          latestScores {
            id
            value
            trait {
              id
            }
          }
          phenotypesSeen {
            id
            locusId
            phenotype
            seenOn
            withdrawn {
              at
            }
          }
          photos {
            id
            smallPath
            caption
          }
        }
      }
    }
  }
`);

export type SeenFish = ResultOf<typeof COMPARED_FISH>['fishList']['edges'][number]['node'];
