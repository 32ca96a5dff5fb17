import { graphql, type ResultOf } from './graphql.js';

export const fishRow = graphql(`
  fragment FishRow on Fish {
    id
    tag
    name
    sex
    hatchDate
    disposition
    inUse
    place
    notShared
    swimsWith {
      id
      name
    }
    inbreedingCoefficient
    inbreedingBasis
    withdrawn {
      at
      reason
    }
    line {
      id
      code
    }
    sire: namedSire {
      id
      tag
    }
    dam: namedDam {
      id
      tag
    }
  }
`);

export const FISH_LIST = graphql(
  `
    query FishList($filter: FishFilter, $sort: FishSort, $first: Int, $after: String) {
      fishList(filter: $filter, sort: $sort, first: $first, after: $after) {
        edges {
          cursor
          node {
            ...FishRow
          }
        }
        pageInfo {
          hasNextPage
          endCursor
        }
        totalCount
      }
    }
  `,
  [fishRow],
);

export type FishRow = ResultOf<typeof fishRow>;

export const FISH_CHOICES = graphql(`
  query FishChoices($filter: FishFilter) {
    fishList(filter: $filter, sort: { field: TAG }, first: 30) {
      edges {
        node {
          id
          tag
          name
          sex
          disposition
          place
          notShared
          swimsWith {
            id
            name
          }
          hatchDate
          line {
            code
          }
        }
      }
      totalCount
    }
  }
`);

export const FISH_NAME = graphql(`
  query FishName($id: ID!) {
    fish(id: $id) {
      id
      tag
      sex
    }
  }
`);

export const FISH_FACTS = graphql(`
  query FishFacts($id: ID!) {
    fish(id: $id) {
      id
      tag
      name
      sex
      hatchDate
      disposition
      dispositionDate
      dispositionReason
      inUse
      place
      notShared
      swimsWith {
        id
        name
      }
      handOvers {
        id
        kind
        state
        side
        toName
        backOn
        quarantineUntil
        from {
          name
        }
      }
      origin
      declaredUnrelated
      inbreedingNote
      note
      revision
      createdAt
      inbreedingCoefficient
      inbreedingBasis
      completeGenerationEquivalents
      offspringCount
      stay {
        id
        vessel {
          id
          code
        }
      }
      mayChange
      mayScore
      withdrawn {
        at
        reason
      }
      person {
        id
        name
        here
      }
      line {
        id
        code
        name
      }
      spawn {
        id
        tag
        spawnedOn
      }
      sire: namedSire {
        id
        tag
        sex
      }
      dam: namedDam {
        id
        tag
        sex
      }
    }
  }
`);

export type FishFacts = ResultOf<typeof FISH_FACTS>['fish'];

export const inbreedingParts = graphql(`
  fragment InbreedingParts on InbreedingExplanation {
    coefficient
    complete
    pathCount
    listedCount
    explainedShare
    paths {
      ancestor {
        id
        tag
        sex
        unknownParentOf
      }
      fish {
        id
        tag
        sex
        unknownParentOf
      }
      sireSteps
      damSteps
      ancestorInbreeding
      ancestorBasis
      contribution
    }
    ancestorCount
    byAncestor {
      ancestor {
        id
        tag
        sex
        unknownParentOf
      }
      pathCount
      contribution
    }
  }
`);

export type Inbreeding = ResultOf<typeof inbreedingParts>;

export const FISH_INBREEDING = graphql(
  `
    query FishInbreeding($id: ID!, $limit: Int) {
      fish(id: $id) {
        id
        inbreeding(limit: $limit) {
          ...InbreedingParts
        }
      }
    }
  `,
  [inbreedingParts],
);

export const pedigreeParts = graphql(`
  fragment PedigreeParts on PedigreeSlice {
    focusId
    truncated
    fish {
      id
      tag
      sex
      sireId
      damId
      spawnId
      spawnTag
      hatchDate
      unknownParentOf
      recordShown
      lineCode
      disposition
      inbreedingCoefficient
      inbreedingBasis
    }
  }
`);

export type PedigreeSlice = ResultOf<typeof pedigreeParts>;

export const FISH_PEDIGREE = graphql(
  `
    query FishPedigree($id: ID!, $up: Int, $down: Int, $limit: Int) {
      pedigree(fishId: $id, ancestorGenerations: $up, descendantGenerations: $down, limit: $limit) {
        ...PedigreeParts
      }
    }
  `,
  [pedigreeParts],
);

export const FISH_EVIDENCE = graphql(`
  query FishEvidence($id: ID!) {
    fish(id: $id) {
      id
      scores {
        id
        value
        scoredOn
        ageDays
        scorer
        note
        corrects
        corrected
        traitVersion
        mayChange
        withdrawn {
          at
          reason
        }
        trait {
          id
          name
          kind
          unit
          minimum
          maximum
          version
          grades {
            from
            name
          }
        }
      }
      latestScores {
        id
        value
        scoredOn
        ageDays
        scorer
        trait {
          id
          name
          kind
          unit
          minimum
          maximum
          version
          grades {
            from
            name
          }
        }
        traitVersion
      }
      genotypes {
        id
        locusId
        genotype
        basis
        note
        revision
        withdrawn {
          at
          reason
        }
      }
    }
  }
`);

export type FishEvidence = ResultOf<typeof FISH_EVIDENCE>['fish'];

export const FISH_FAMILY = graphql(
  `
    query FishFamily($id: ID!) {
      fish(id: $id) {
        id
        spawn {
          id
          tag
          fish {
            ...FishRow
          }
        }
        spawnsAsParent {
          id
          tag
          spawnedOn
          failed
          fishCount
          inbreedingCoefficient
          inbreedingBasis
          sire: namedSire {
            id
            tag
            sex
          }
          dam: namedDam {
            id
            tag
            sex
          }
        }
      }
    }
  `,
  [fishRow],
);

export const CREATE_FISH = graphql(`
  mutation CreateFish($input: CreateFishInput!) {
    createFish(input: $input) {
      id
      tag
    }
  }
`);

export const CORRECT_FISH = graphql(`
  mutation CorrectFish($input: CorrectFishInput!) {
    correctFish(input: $input) {
      id
      revision
    }
  }
`);

export const WITHDRAW_FISH = graphql(`
  mutation WithdrawFish($input: WithdrawInput!) {
    withdrawFish(input: $input) {
      id
      withdrawn {
        at
        reason
      }
    }
  }
`);

export const DECIDE_FISH = graphql(`
  mutation DecideFish($input: DecideFishInput!) {
    decideFish(input: $input) {
      id
      disposition
      dispositionDate
      dispositionReason
      revision
    }
  }
`);

export const RECORD_SCORES = graphql(`
  mutation RecordScores($input: RecordScoresInput!) {
    recordScores(input: $input) {
      id
      value
    }
  }
`);

export const CORRECT_SCORE = graphql(`
  mutation CorrectScore($input: CorrectScoreInput!) {
    correctScore(input: $input) {
      id
      value
    }
  }
`);

export const WITHDRAW_SCORE = graphql(`
  mutation WithdrawScore($input: WithdrawInput!) {
    withdrawScore(input: $input) {
      id
    }
  }
`);

export const RECORD_GENOTYPE = graphql(`
  mutation RecordGenotype($input: RecordGenotypeInput!) {
    recordGenotype(input: $input) {
      id
      genotype
    }
  }
`);

export const WITHDRAW_GENOTYPE = graphql(`
  mutation WithdrawGenotype($input: WithdrawInput!) {
    withdrawGenotype(input: $input) {
      id
    }
  }
`);
