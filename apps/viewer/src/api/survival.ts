import { graphql, type ResultOf } from './graphql.js';

const reading = graphql(`
  fragment SurvivalFigures on SurvivalReading {
    steps {
      day
      atRisk
      deaths
      withdrawn
      survival
      low
      high
    }
    pooled {
      day
      survival
    }
    band {
      day
      spawns
      low
      middle
      high
    }
    comparison {
      day
      here
      place
      band {
        low
        middle
        high
        spawns
      }
    }
  }
`);

export type SurvivalFigures = ResultOf<typeof reading>;

export const SPAWN_SURVIVAL = graphql(
  `
    query SpawnSurvival($id: ID!, $from: SurvivalStart, $sameLine: Boolean!) {
      spawnSurvival(spawnId: $id, from: $from, sameLine: $sameLine) {
        spawnId
        from
        possible
        started
        startedOn
        left
        lastDay
        pastSpawns
        pastSpawnsPassedOver
        pastFish
        days {
          day
          died
          missing
          culled
          placed
          since
        }
        warnings {
          code
          day
          message
        }
        allLosses {
          ...SurvivalFigures
        }
        deathsOnly {
          ...SurvivalFigures
        }
      }
    }
  `,
  [reading],
);

export type SpawnSurvival = ResultOf<typeof SPAWN_SURVIVAL>['spawnSurvival'];
