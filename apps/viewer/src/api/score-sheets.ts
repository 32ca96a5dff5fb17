import { graphql, type ResultOf } from './graphql.js';

export const versionParts = graphql(`
  fragment SheetVersionParts on ScoreSheetVersion {
    version
    madeAt
    fromAgeDays
    toAgeDays
    lines {
      weight
      noneAt
      fullAt
      traitVersion
      trait {
        id
        key
        name
        kind
        unit
        minimum
        maximum
        higherIsBetter
        description
        version
        grades {
          from
          name
        }
      }
    }
    faults {
      id
      name
      severity
      points
    }
    deductions {
      severity
      points
    }
  }
`);

export type SheetVersion = ResultOf<typeof versionParts>;
export type SheetLine = SheetVersion['lines'][number];
export type FaultSeverity = SheetVersion['faults'][number]['severity'];

export const SCORE_SHEETS = graphql(
  `
    query ScoreSheets {
      scoreSheets {
        id
        name
        description
        version
        revision
        current {
          ...SheetVersionParts
        }
      }
    }
  `,
  [versionParts],
);

export type ScoreSheetRow = ResultOf<typeof SCORE_SHEETS>['scoreSheets'][number];

export const SCORE_SHEET = graphql(
  `
    query ScoreSheet($id: ID!) {
      scoreSheet(id: $id) {
        id
        name
        description
        version
        revision
        mayChange
        withdrawn {
          at
          reason
        }
        current {
          ...SheetVersionParts
        }
        versions {
          version
          madeAt
          lines {
            weight
            trait {
              id
              name
            }
          }
          faults {
            id
            name
          }
        }
      }
    }
  `,
  [versionParts],
);

export type ScoreSheet = ResultOf<typeof SCORE_SHEET>['scoreSheet'];

export const SHEET_STARTS = graphql(`
  query SheetStarts {
    sheetStarts {
      key
      name
      description
      fromAgeDays
      toAgeDays
      traitNames
      faults {
        name
        severity
      }
    }
  }
`);

export const CREATE_SHEET = graphql(`
  mutation CreateScoreSheet($input: CreateScoreSheetInput!) {
    createScoreSheet(input: $input) {
      id
    }
  }
`);

export const START_SHEET = graphql(`
  mutation StartScoreSheet($input: StartScoreSheetInput!) {
    startScoreSheet(input: $input) {
      id
    }
  }
`);

export const REVISE_SHEET = graphql(`
  mutation ReviseScoreSheet($input: ReviseScoreSheetInput!) {
    reviseScoreSheet(input: $input) {
      id
      version
    }
  }
`);

export const WITHDRAW_SHEET = graphql(`
  mutation WithdrawScoreSheet($input: WithdrawInput!) {
    withdrawScoreSheet(input: $input) {
      id
    }
  }
`);

const scoringParts = graphql(`
  fragment ScoringParts on SheetScoring {
    id
    sheetVersion
    scoredOn
    ageDays
    scorer
    note
    revision
    warnings
    mayChange
    withdrawn {
      at
      reason
    }
    sheet {
      id
      name
      version
    }
    faults {
      id
      name
      severity
      points
    }
    total {
      total
      beforeFaults
      deducted
      disqualified
      missing
      equalWeights
      parts {
        value
        share
        weight
        points
        trait {
          id
          name
          kind
          unit
          minimum
          maximum
          grades {
            from
            name
          }
        }
      }
    }
  }
`);

export type SheetScoring = ResultOf<typeof scoringParts>;

export const FISH_SCORINGS = graphql(
  `
    query FishScorings($id: ID!) {
      fish(id: $id) {
        id
        sheetScorings {
          ...ScoringParts
        }
      }
    }
  `,
  [scoringParts],
);

export const SCORE_ON_SHEET = graphql(
  `
    mutation ScoreOnSheet($input: ScoreOnSheetInput!) {
      scoreOnSheet(input: $input) {
        ...ScoringParts
      }
    }
  `,
  [scoringParts],
);

export const WITHDRAW_SCORING = graphql(`
  mutation WithdrawSheetScoring($input: WithdrawInput!) {
    withdrawSheetScoring(input: $input) {
      id
    }
  }
`);

export const TRAIT_RELIABILITY = graphql(`
  query TraitReliability($traitId: ID!, $windowDays: Int!) {
    traitReliability(traitId: $traitId, windowDays: $windowDays) {
      windowDays
      traitVersion
      otherVersions
      fishScored
      fishRepeated
      tooFew
      repeatability {
        repeatability
        interval {
          low
          high
        }
        approximate
        fish
        scores
        meanScores
        meanSquareBetween
        meanSquareWithin
        varianceBetween
        tail
      }
      scorers {
        first
        second
        fish
        difference
        deviation
        interval {
          low
          high
        }
      }
      scores {
        fishId
        tag
        scorer
        value
        scoredOn
      }
    }
  }
`);

export type TraitReliability = ResultOf<typeof TRAIT_RELIABILITY>['traitReliability'];
