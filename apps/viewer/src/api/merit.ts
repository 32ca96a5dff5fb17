import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';

const modelAnswer = graphql(`
  fragment MeritModelAnswerParts on MeritModelAnswer {
    kind
    heritability {
      mean
      standardDeviation
      bands {
        probability
        low
        high
      }
      curve {
        heritability
        probability
      }
      prior {
        prior
        mean
        standardDeviation
        source
      }
      fromPrior
    }
    shares {
      name
      share
    }
    effects {
      column
      level
      value
      standardError
    }
  }
`);

export type MeritModelAnswer = ResultOf<typeof modelAnswer>;

const refusal = graphql(`
  fragment MeritRefusalParts on MeritRefusal {
    code
    message
    remedy
  }
`);

export type MeritRefusal = ResultOf<typeof refusal>;

const traitMerit = graphql(
  `
    fragment TraitMeritParts on TraitMerit {
      settings {
        revision
        parts
        prior
        usualParts
        usualPrior
      }
      fittedParts {
        part
        fitted
        whyNot
      }
      counts {
        looks
        otherVersions
        ageNotKnown
        fish
        broods
        sires
        dams
      }
      selection {
        scored
        scoredBeforeSorting
        culled
        culledForTrait
        warning
        message
        notes {
          code
          message
        }
        broods {
          spawnId
          tag
          sortedOn
          recorded
          scored
          scoredBeforeSorting
          drawn
          culled
          culledForTrait
          meanBeforeSorting
          meanInUse
        }
      }
      result {
        shown
        linear {
          ...MeritModelAnswerParts
        }
        linearRefusal {
          ...MeritRefusalParts
        }
        threshold {
          ...MeritModelAnswerParts
        }
        thresholdRefusal {
          ...MeritRefusalParts
        }
        comparison {
          rankCorrelation
          partWays
        }
        reml {
          heritability
          standardError
          atEdge
          iterations
          terms {
            name
            value
            standardError
            atEdge
          }
        }
        remlRefusal {
          ...MeritRefusalParts
        }
        notes {
          code
          message
        }
      }
      waiting {
        ...ComputationParts
      }
    }
  `,
  [modelAnswer, refusal, computationParts],
);

export type TraitMerit = ResultOf<typeof traitMerit>;
export type TraitMeritResult = NonNullable<TraitMerit['result']>;

export const TRAIT_MERIT = graphql(
  `
    query TraitMerit($traitId: ID!) {
      traitMerit(traitId: $traitId) {
        ...TraitMeritParts
      }
    }
  `,
  [traitMerit],
);

export const SET_TRAIT_MODEL = graphql(
  `
    mutation SetTraitModel($input: SetTraitModelInput!) {
      setTraitModel(input: $input) {
        ...TraitMeritParts
      }
    }
  `,
  [traitMerit],
);

export const RESET_TRAIT_MODEL = graphql(
  `
    mutation ResetTraitModel($input: ResetTraitModelInput!) {
      resetTraitModel(input: $input) {
        ...TraitMeritParts
      }
    }
  `,
  [traitMerit],
);
