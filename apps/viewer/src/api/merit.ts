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
        besideTraitIds
        prior
        usualParts
        usualPrior
      }
      fittedParts {
        part
        fitted
        whyNot
      }
      besideTraits {
        traitId
        name
        fitted
        whyNot
        levels
        looksWithout
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
        narrowing {
          plan
          scoresAdded
          heritabilityNow
          heritabilityThen
          valuesNow
          valuesThen
        }
        leftOut
        worthScoring {
          fish {
            id
            tag
          }
          errorBefore
          errorAfter
        }
      }
      waiting {
        ...ComputationParts
      }
      scoresTakenInSince
      whyNotTakenIn
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

export const SCORING_DRAWS = graphql(`
  query ScoringDraws($spawnId: ID!) {
    spawn(id: $spawnId) {
      id
      scoringDraws {
        id
        drawnOn
        drawnFrom
        by
        fish {
          id
          tag
        }
      }
    }
  }
`);

export const DRAW_FOR_SCORING = graphql(`
  mutation DrawForScoring($input: DrawForScoringInput!) {
    drawForScoring(input: $input) {
      id
    }
  }
`);

const traitOfMerit = graphql(`
  fragment TraitOfMeritParts on TraitDefinition {
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
`);

export const FISH_MERIT = graphql(
  `
    query FishMerit($id: ID!) {
      fish(id: $id) {
        id
        line {
          id
        }
        merit {
          selectionCaution
          trait {
            ...TraitOfMeritParts
          }
          value {
            kind
            value
            bands {
              probability
              low
              high
            }
            accuracy
          }
          lineMean
          expectedYoung {
            aboveLine
            giveOrTake
          }
          ownLooks
          ownMean
          scoredRelatives
          amongSibs {
            place
            of
          }
          inLine {
            place
            of
          }
          refusal {
            ...MeritRefusalParts
          }
          waiting {
            ...ComputationParts
          }
          scoresTakenInSince
          whyNotTakenIn
        }
      }
    }
  `,
  [traitOfMerit, refusal, computationParts],
);

export type FishMerit = ResultOf<typeof FISH_MERIT>['fish']['merit'][number];

export const MERIT_REASONS = graphql(`
  query MeritReasons($fishId: ID!, $traitId: ID!) {
    meritReasons(fishId: $fishId, traitId: $traitId) {
      value
      fishCount
      restContribution
      reasons {
        fish {
          id
          tag
        }
        relationship
        looks
        contribution
      }
    }
  }
`);

/** The line in use, as many as are drawn. */
export const RANKED_FISH = graphql(`
  query RankedFish($traitId: ID!, $lineId: ID!) {
    rankedFish(traitId: $traitId, lineId: $lineId, inUse: true, first: 100) {
      totalCount
      edges {
        node {
          value
          fish {
            id
            tag
          }
        }
      }
    }
  }
`);

export const TRAIT_TREND = graphql(
  `
    query TraitTrend($traitId: ID!, $lineId: ID!) {
      traitTrend(traitId: $traitId, lineId: $lineId) {
        generations {
          generation
          fish
          scored
          meanScore
          meanScoreError
          meanValue
          meanValueError
          meanInbreeding
          meanKinship
          expectedResponse
          realisedResponse
        }
        realisedHeritability
        realisedHeritabilityError
        generationInterval
        selectionCaution
        refusal {
          ...MeritRefusalParts
        }
        waiting {
          ...ComputationParts
        }
      }
    }
  `,
  [refusal, computationParts],
);

export type Trend = ResultOf<typeof TRAIT_TREND>['traitTrend'];

export const TRAITS_TOGETHER = graphql(
  `
    query TraitsTogether($traitId: ID!, $otherId: ID!, $fishId: ID) {
      traitsTogether(traitId: $traitId, otherId: $otherId, fishId: $fishId) {
        fishScored
        fishWithBoth
        verdict
        correlations {
          part
          correlation
          standardError
        }
        ofFish {
          trait {
            ...TraitOfMeritParts
          }
          aboveLine
          giveOrTake
        }
        notes
        selectionCaution
        refusal {
          ...MeritRefusalParts
        }
        waiting {
          ...ComputationParts
        }
      }
    }
  `,
  [traitOfMerit, refusal, computationParts],
);

export type Together = ResultOf<typeof TRAITS_TOGETHER>['traitsTogether'];

const cost = graphql(`
  fragment InbreedingCostParts on InbreedingCost {
    column
    perGamete
    low
    high
    smallestDetectable
    verdict
  }
`);

const measureChange = graphql(`
  fragment MeasureChangeParts on MeasureChange {
    column
    atSibMating
    low
    high
    smallest
    verdict
  }
`);

export type MeasureChange = ResultOf<typeof measureChange>;

const sizePoint = graphql(`
  fragment SizePointParts on SizePoint {
    spawnId
    tag
    young
    size
    counted
  }
`);

export type SizePoint = ResultOf<typeof sizePoint>;

export const TRAIT_LOAD = graphql(
  `
    query TraitInbreedingLoad($traitId: ID!, $lineId: ID!) {
      traitInbreedingLoad(traitId: $traitId, lineId: $lineId) {
        fish
        broods
        looksLeftOut
        changes {
          ...MeasureChangeParts
        }
        byAge {
          ...MeasureChangeParts
        }
        level
        points {
          ...SizePointParts
        }
        refusal {
          ...MeritRefusalParts
        }
      }
    }
  `,
  [measureChange, sizePoint, refusal],
);

export const LINE_LOAD = graphql(
  `
    query LineInbreedingLoad($lineId: ID!) {
      lineInbreedingLoad(lineId: $lineId) {
        broodsLeftOut
        stages {
          stage
          broods
          survivalWithout
          betweenBroods
          costs {
            ...InbreedingCostParts
          }
          byAge {
            ...InbreedingCostParts
          }
          refusal {
            ...MeritRefusalParts
          }
          points {
            spawnId
            tag
            young
            dam
            survivors
            counted
          }
        }
        broodSizes {
          size
          broods
          changes {
            ...MeasureChangeParts
          }
          byAge {
            ...MeasureChangeParts
          }
          level
          points {
            ...SizePointParts
          }
          refusal {
            ...MeritRefusalParts
          }
        }
      }
    }
  `,
  [cost, measureChange, sizePoint, refusal],
);

export type LineLoad = ResultOf<typeof LINE_LOAD>['lineInbreedingLoad'];
export type StageLoad = LineLoad['stages'][number];
