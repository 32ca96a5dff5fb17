import { inbreedingParts, pedigreeParts } from './fish.js';
import { graphql, type ResultOf } from './graphql.js';
import { crossParts } from './heredity.js';
import { judgementParts, pairBasisParts, passingParts, worthParts } from './judgement.js';

export const PAIRINGS = graphql(`
  query Pairings($states: [PairingState!]) {
    pairings(states: $states) {
      id
      state
      plannedOn
      reason
      note
      revision
      mayChange
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
      obstacles {
        code
        severity
        text
        basis
        planning
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

/** Those that whoever is signed in makes. */
export const PAIRS_TO_MAKE = graphql(`
  query PairsToMake {
    pairings(states: [PLANNED], mine: true) {
      id
      plannedOn
      sire {
        id
        tag
      }
      dam {
        id
        tag
      }
    }
  }
`);

export const PAIR_MAKERS = graphql(`
  query PairMakers($lineId: ID!) {
    pairMakers(lineId: $lineId) {
      id
      name
    }
  }
`);

export const ASSIGN_PAIRING = graphql(`
  mutation AssignPairing($input: AssignPairingInput!) {
    assignPairing(input: $input) {
      id
      revision
      maker {
        id
        name
      }
    }
  }
`);

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

const conditionParts = graphql(`
  fragment ConditionParts on ConditionOfFish {
    ageDays
    restDays
    spawns
    failures
    isHere
    place {
      meanCoancestry
      place
      of
      riseWithout
    }
  }
`);

export const PLANNED_BROOD = graphql(
  `
    query PlannedBrood($sireId: ID!, $damId: ID!, $broodSize: Int, $input: PairingInput) {
      plannedBrood(sireId: $sireId, damId: $damId, broodSize: $broodSize, input: $input) {
        inbreedingCoefficient
        worth {
          ...WorthParts
        }
        basis {
          ...PairBasisParts
        }
        passing {
          ...PassingParts
        }
        sireCondition {
          ...ConditionParts
        }
        damCondition {
          ...ConditionParts
        }
        lineWithYoung {
          fish
          keep
          now
          ofYoung
          after
        }
        plannedPairingId
        mainAncestors {
          ...AncestorShareParts
        }
        inbreedingBasis
        sire {
          ...PairFishParts
          disposition
          mayChange
          line {
            id
            mayBreed
          }
        }
        dam {
          ...PairFishParts
          disposition
          mayChange
          line {
            id
            mayBreed
          }
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
          ...WarningParts
        }
        traitMeans {
          ...TraitMeanParts
        }
        reasons {
          ...ReasonParts
        }
      }
    }
  `,
  [
    inbreedingParts,
    pedigreeParts,
    crossParts,
    worthParts,
    pairBasisParts,
    passingParts,
    conditionParts,
    ...judgementParts,
  ],
);

export type FishCondition = ResultOf<typeof conditionParts>;

export const PAIR_DIFFERENCE = graphql(`
  query PairDifference(
    $sireId: ID!
    $damId: ID!
    $otherSireId: ID!
    $otherDamId: ID!
    $input: PairingInput
  ) {
    pairDifference(
      sireId: $sireId
      damId: $damId
      otherSireId: $otherSireId
      otherDamId: $otherDamId
      input: $input
    ) {
      points
      standardError
      toldApart
    }
  }
`);

export type PlannedBrood = ResultOf<typeof PLANNED_BROOD>['plannedBrood'];
