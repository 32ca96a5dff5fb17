import { graphql, type ResultOf } from './graphql.js';

/** A fish of a pair, and where it swims. */
export const pairFishParts = graphql(`
  fragment PairFishParts on Fish {
    id
    tag
    sex
    place
    notShared
    swimsWith {
      id
      name
    }
  }
`);

/** How many young of a brood pass, and the fry to raise for those that are to be kept. */
export const passingParts = graphql(`
  fragment PassingParts on PassingOfPair {
    share
    wanted
    fry
    survival
    chance
    fryFor {
      certainty
      fry
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

export const worthParts = graphql(`
  fragment WorthParts on WorthOfPair {
    points
    standardError
    likeBest
    choice
    inbreeding
    raised
    looks {
      label
      wanted
      required
      share
      points
    }
    traits {
      mean
      meanError
      deviation
      inheritedShare
      lineMean
      lineDeviation
      low
      high
      points
      trait {
        id
        name
        unit
        kind
        minimum
        maximum
      }
    }
  }
`);

export type PairWorth = ResultOf<typeof worthParts>;

export const pairBasisParts = graphql(`
  fragment PairBasisParts on PairBasis {
    lineId
    version
    inbreedingCost
    costBasis
    errorsTogether
    keep
    fry
    survival
    load
    countedBroods
    notCounted {
      reason
      trait {
        id
        name
      }
    }
  }
`);

export type PairBasis = ResultOf<typeof pairBasisParts>;

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
