import { inbreedingParts, pedigreeParts } from './fish.js';
import { graphql, type ResultOf } from './graphql.js';
import { crossParts } from './heredity.js';

export const PAIRINGS = graphql(`
  query Pairings($states: [PairingState!]) {
    pairings(states: $states) {
      id
      state
      plannedOn
      reason
      note
      revision
      inbreedingCoefficient
      inbreedingBasis
      withdrawn {
        at
        reason
      }
      sire {
        id
        tag
        sex
        line {
          id
          code
        }
      }
      dam {
        id
        tag
        sex
        line {
          id
          code
        }
      }
      spawns {
        id
        tag
        spawnedOn
      }
    }
  }
`);

export type PairingRow = ResultOf<typeof PAIRINGS>['pairings'][number];

export const PLAN_PAIRING = graphql(`
  mutation PlanPairing($input: PlanPairingInput!) {
    planPairing(input: $input) {
      id
      state
    }
  }
`);

export const DROP_PAIRING = graphql(`
  mutation DropPairing($input: WithdrawInput!) {
    dropPairing(input: $input) {
      id
      state
    }
  }
`);

export const RECORD_PAIRING_SPAWN = graphql(`
  mutation RecordPairingSpawn($input: PairingSpawnInput!) {
    recordPairingSpawn(input: $input) {
      id
      tag
    }
  }
`);

export const HYPOTHETICAL_BROOD = graphql(
  `
    query HypotheticalBrood($sireId: ID!, $damId: ID!, $broodSize: Int) {
      hypotheticalBrood(sireId: $sireId, damId: $damId, broodSize: $broodSize) {
        inbreedingCoefficient
        inbreedingBasis
        sire {
          id
          tag
          sex
        }
        dam {
          id
          tag
          sex
        }
        inbreeding {
          ...InbreedingParts
        }
        inbreedingNote
        slice {
          ...PedigreeParts
        }
        classes {
          ...CrossParts
        }
        warnings {
          code
          severity
          text
          basis
        }
        traitMeans {
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
        reasons {
          code
          text
          figure
        }
      }
    }
  `,
  [inbreedingParts, pedigreeParts, crossParts],
);

export type HypotheticalBrood = ResultOf<typeof HYPOTHETICAL_BROOD>['hypotheticalBrood'];
