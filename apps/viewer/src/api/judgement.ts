import { graphql, type ResultOf } from './graphql.js';

/** A fish of a pair, and where it swims. */
export const pairFishParts = graphql(`
  fragment PairFishParts on Fish {
    id
    tag
    sex
    place
    swimsWith {
      id
      name
    }
  }
`);

export const warningParts = graphql(`
  fragment WarningParts on PairWarning {
    code
    severity
    text
    basis
    planning
  }
`);

export const reasonParts = graphql(`
  fragment ReasonParts on Reason {
    code
    text
    figure
  }
`);

export const traitMeanParts = graphql(`
  fragment TraitMeanParts on TraitMean {
    sireValue
    damValue
    mean
    trait {
      id
      name
      unit
      kind
      minimum
      maximum
    }
  }
`);

export const ancestorShareParts = graphql(`
  fragment AncestorShareParts on AncestorShare {
    pathCount
    contribution
    ancestor {
      id
      tag
      sex
    }
  }
`);

/** What a judgement of a pair is made of, in the list as on its page. */
export const judgementParts = [
  pairFishParts,
  warningParts,
  reasonParts,
  traitMeanParts,
  ancestorShareParts,
] as const;

export type PairWarning = ResultOf<typeof warningParts>;
export type PairReason = ResultOf<typeof reasonParts>;
export type TraitMean = ResultOf<typeof traitMeanParts>;
