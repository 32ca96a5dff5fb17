import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';

export const routeFish = graphql(`
  fragment RouteFishParts on NamedFish {
    id
    tag
    sex
    lineCode
  }
`);

export type RouteFish = ResultOf<typeof routeFish>;

export const routeParent = graphql(
  `
    fragment RouteParentParts on RouteParent {
      fish {
        ...RouteFishParts
      }
      fromGeneration
      fromBrood
    }
  `,
  [routeFish],
);

export type RouteParent = ResultOf<typeof routeParent>;

const lineRoute = graphql(
  `
    fragment LineRouteParts on LineRoute {
      key
      scheme
      fish {
        ...RouteFishParts
      }
      broods {
        generation
        sire {
          ...RouteParentParts
        }
        dam {
          ...RouteParentParts
        }
      }
      chance
      standardError
      low
      high
      byGeneration
      simulations
      meanGenerations
      meanMonths
      fry
      inbreeding {
        mean
        low
        high
      }
      passing
      endedByCeiling
      droppedAfter
    }
  `,
  [routeFish, routeParent],
);

export type LineRoute = ResultOf<typeof lineRoute>;

export const LINE_ROUTES = graphql(
  `
    query LineRoutes($input: RouteSearchInput!) {
      lineRoutes(input: $input) {
        purposeVersion
        whyNone
        waiting {
          ...ComputationParts
        }
        routes {
          ...LineRouteParts
        }
        pairs
        pairsTried
        overCeiling
        outcrosses
        outcrossesTried
        leftOut
        forNow
        daysPerGeneration
        daysBasis
      }
    }
  `,
  [lineRoute, computationParts],
);

export type LineRoutes = ResultOf<typeof LINE_ROUTES>['lineRoutes'];

const fan = graphql(`
  fragment ForecastFanParts on ForecastFan {
    mean
    standardError
    median
    bands {
      probability
      low
      high
    }
  }
`);

export type Fan = ResultOf<typeof fan>;

export const strategyParts = graphql(
  `
    fragment StrategyForecastParts on StrategyForecast {
      simulations
      broods
      effectiveSize {
        ...ForecastFanParts
      }
      generations {
        generation
        inbreeding {
          ...ForecastFanParts
        }
        kinship {
          ...ForecastFanParts
        }
        traits {
          traitId
          name
          mean {
            ...ForecastFanParts
          }
        }
        alleles {
          locusId
          locusName
          symbol
          stillThere
          low
          high
        }
      }
    }
  `,
  [fan],
);

export type StrategyForecast = ResultOf<typeof strategyParts>;

export const LINE_FORECAST = graphql(
  `
    query LineForecast($input: LineForecastInput!) {
      lineForecast(input: $input) {
        whyNone
        waiting {
          ...ComputationParts
        }
        plan {
          ...StrategyForecastParts
        }
        soFar {
          ...StrategyForecastParts
        }
        bred {
          sires
          dams
          broods
        }
        kinshipRise
        leftOut
      }
    }
  `,
  [strategyParts, computationParts],
);

export type LineForecast = ResultOf<typeof LINE_FORECAST>['lineForecast'];
