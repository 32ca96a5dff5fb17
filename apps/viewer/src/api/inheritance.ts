import { graphql, type ResultOf, type VariablesOf } from './graphql.js';

const recombinationParts = graphql(`
  fragment RecombinationParts on Recombination {
    recombination
    standardError
    lod
    low
    high
  }
`);

export type Recombination = ResultOf<typeof recombinationParts>;

export const LINKAGE = graphql(
  `
    query Linkage($broods: [LinkageBroodInput!]!) {
      linkage(broods: $broods) {
        recombination
        standardError
        lod
        low
        high
        verdict
        notCloserThan
        young
        inSires {
          ...RecombinationParts
        }
        inDams {
          ...RecombinationParts
        }
      }
    }
  `,
  [recombinationParts],
);

export const LINKAGE_BROODS = graphql(`
  query LinkageBroods($one: LookInput!, $other: LookInput!) {
    linkageBroods(first: $one, second: $other) {
      spawnId
      spawnTag
      carrier
      phase
      both
      firstOnly
      secondOnly
      neither
    }
  }
`);

export type BroodOnRecord = ResultOf<typeof LINKAGE_BROODS>['linkageBroods'][number];
export type Look = VariablesOf<typeof LINKAGE_BROODS>['one'];

export type LinkageAnswer = ResultOf<typeof LINKAGE>['linkage'];
export type LinkageBrood = VariablesOf<typeof LINKAGE>['broods'][number];

export const HOW_INHERITED = graphql(`
  query HowInherited($locusId: ID!, $phenotype: String!) {
    howInherited(locusId: $locusId, phenotype: $phenotype) {
      locusId
      phenotype
      looked
      shown
      contradicting
      leftOut
      verdict
      ways {
        code
        meaning
        weight
        estimate
      }
    }
  }
`);

export type HowInherited = ResultOf<typeof HOW_INHERITED>['howInherited'];
