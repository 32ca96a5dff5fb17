import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';
import { routeFish, strategyParts } from './line-routes.js';

const outcrossCourse = graphql(`
  fragment OutcrossCourseParts on OutcrossCourse {
    generations {
      generation
      inbreeding
      lineShare
      traits {
        traitId
        mean
        standardError
      }
      alleles {
        locusId
        alleleId
        carried
        twice
      }
    }
    traits {
      traitId
      name
      lineMean
      partner
      lost
      backAfter
    }
    alleles {
      locusId
      alleleId
      locusName
      symbol
      inLine
      inPartner
    }
  }
`);

const outcrossPoint = graphql(`
  fragment OutcrossPointParts on OutcrossPoint {
    figure
    name
    without
    withIt
  }
`);

export const LINE_OUTCROSS = graphql(
  `
    query LineOutcross($input: LineOutcrossInput!) {
      lineOutcross(input: $input) {
        purposeVersion
        whyNone
        waiting {
          ...ComputationParts
        }
        partner {
          ...RouteFishParts
        }
        mate {
          ...RouteFishParts
        }
        back {
          ...RouteFishParts
        }
        basis
        lineInbreeding
        ceiling
        parentGenerations
        backcrosses {
          ...OutcrossCourseParts
        }
        within {
          ...OutcrossCourseParts
        }
        chance {
          share
          generations
          chance
          standardError
          low
          high
          byGeneration
          simulations
          meanMonths
          fry
          inbreeding {
            mean
            low
            high
          }
        }
        whyNoChance
        forecast {
          verdict
          without {
            ...StrategyForecastParts
          }
          withIt {
            ...StrategyForecastParts
          }
          needs {
            ...OutcrossPointParts
          }
          gains {
            ...OutcrossPointParts
          }
          costs {
            ...OutcrossPointParts
          }
        }
        whyNoForecast
        cautions
        leftOut
      }
    }
  `,
  [routeFish, outcrossCourse, outcrossPoint, strategyParts, computationParts],
);

export type LineOutcross = ResultOf<typeof LINE_OUTCROSS>['lineOutcross'];
export type OutcrossCourse = ResultOf<typeof outcrossCourse>;
export type OutcrossPoint = ResultOf<typeof outcrossPoint>;
export type OutcrossForecast = NonNullable<LineOutcross['forecast']>;
export type OutcrossChance = NonNullable<LineOutcross['chance']>;
