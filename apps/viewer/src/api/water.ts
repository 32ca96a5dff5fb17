import { graphql, type ResultOf } from './graphql.js';

const reading = graphql(`
  fragment WaterFigures on WaterReading {
    id
    vessel
    takenAt
    totalAmmonia
    ammoniaUnit
    pH
    celsius
    nitrite
    nitriteForm
    nitrate
    nitrateForm
    kit
    note
    revision
    standing
    notComputed
    trust {
      state
      hoursLeft
    }
    unionised {
      asNH3
      asN
      totalAsN
      share
      pKa
      beyondTables
    }
    change {
      outcome
      remedy
      cautions
    }
  }
`);

export type WaterFigures = ResultOf<typeof reading>;

export const WATER_READINGS = graphql(
  `
    query WaterReadings($spawnId: ID, $vessel: String, $after: String) {
      waterReadings(spawnId: $spawnId, vessel: $vessel, after: $after) {
        edges {
          node {
            ...WaterFigures
          }
        }
        pageInfo {
          hasNextPage
          endCursor
        }
        totalCount
      }
      waterRule {
        limitAsNH3
        trustHours
      }
    }
  `,
  [reading],
);

export const WATER_PLACES = graphql(
  `
    query WaterPlaces {
      waterPlaces {
        name
        vessel
        readingCount
        spawn {
          id
          tag
        }
        latest {
          ...WaterFigures
        }
      }
    }
  `,
  [reading],
);

export type WaterPlace = ResultOf<typeof WATER_PLACES>['waterPlaces'][number];

export const WATER_RULE = graphql(`
  query WaterRule {
    waterRule {
      limit
      limitUnit
      limitAsNH3
      trustHours
      sourceTotalAsN
      sourcePH
      sourceCelsius
      own
    }
  }
`);

export type WaterRule = ResultOf<typeof WATER_RULE>['waterRule'];

export const WATER_ALERTS = graphql(`
  query WaterAlerts {
    waterAlerts {
      kind
      severity
      message
      cautions
      place {
        name
        vessel
        spawn {
          id
        }
        latest {
          id
          takenAt
        }
      }
    }
  }
`);

export type WaterAlert = ResultOf<typeof WATER_ALERTS>['waterAlerts'][number];

export const RECORD_WATER = graphql(`
  mutation RecordWater($input: RecordWaterInput!) {
    recordWater(input: $input) {
      id
      revision
    }
  }
`);

export const CORRECT_WATER = graphql(`
  mutation CorrectWater($input: CorrectWaterInput!) {
    correctWater(input: $input) {
      id
      revision
    }
  }
`);

export const WITHDRAW_WATER = graphql(`
  mutation WithdrawWater($input: WithdrawInput!) {
    withdrawWater(input: $input) {
      id
    }
  }
`);

export const SET_WATER_RULE = graphql(`
  mutation SetWaterRule($input: WaterRuleInput!) {
    setWaterRule(input: $input) {
      own
    }
  }
`);
