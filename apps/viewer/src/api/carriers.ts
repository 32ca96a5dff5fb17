import { graphql, type ResultOf } from './graphql.js';

export const computationParts = graphql(`
  fragment ComputationParts on Computation {
    id
    state
    progress
    errorMessage
  }
`);

export type Computation = ResultOf<typeof computationParts>;

/** Whether it waits for its turn or is being worked out. */
export const isGoing = ({ state }: Pick<Computation, 'state'>): boolean =>
  state === 'QUEUED' || state === 'RUNNING';

export const COMPUTATION = graphql(
  `
    query Computation($id: ID!) {
      computation(id: $id) {
        ...ComputationParts
      }
    }
  `,
  [computationParts],
);

export const CANCEL_COMPUTATION = graphql(`
  mutation CancelComputation($id: ID!) {
    cancelComputation(id: $id) {
      id
      state
    }
  }
`);

export const RESTART_COMPUTATION = graphql(`
  mutation RestartComputation($id: ID!) {
    restartComputation(id: $id) {
      id
      state
    }
  }
`);

export const FISH_CARRIERS = graphql(
  `
    query FishCarriers($fishId: ID!) {
      fishCarriers(fishId: $fishId) {
        loci {
          locusId
          name
          founders
          recordCount
          informed
          method
          assumed
          impossible
          genotypes {
            genotype
            phenotype
            probability
            standardError
          }
          alleles {
            alleleId
            symbol
            name
            probability
          }
          waiting {
            ...ComputationParts
          }
        }
        leftOut {
          name
          locusId
          code
          reason
        }
      }
    }
  `,
  [computationParts],
);

export type CarrierLocus = ResultOf<typeof FISH_CARRIERS>['fishCarriers']['loci'][number];

export const CARRIER_REASONS = graphql(
  `
    query CarrierReasons($fishId: ID!, $locusId: String!) {
      carrierReasons(fishId: $fishId, locusId: $locusId) {
        tried
        nearCount
        assumed
        beforeRecords {
          genotype
          phenotype
          probability
          standardError
        }
        now {
          genotype
          phenotype
          probability
          standardError
        }
        reasons {
          recordId
          relation
          text
          weight
          without {
            genotype
            phenotype
            probability
            standardError
          }
          fish {
            id
            tag
          }
          spawn {
            id
            tag
          }
        }
        setAside {
          recordId
          why
        }
        waiting {
          ...ComputationParts
        }
      }
    }
  `,
  [computationParts],
);

export type CarrierReasons = ResultOf<typeof CARRIER_REASONS>['carrierReasons'];

export const TEST_MATINGS = graphql(
  `
    query TestMatings($input: TestMatingsInput!) {
      testMatings(input: $input) {
        allele
        carries
        uncertainty
        partnerCount
        judgedCount
        notKnownCount
        assumed
        matings {
          name
          bits
          share
          showing
          fryNeeded
          notKnown
          partner {
            id
            tag
          }
        }
        waiting {
          ...ComputationParts
        }
      }
    }
  `,
  [computationParts],
);

export type TestMatings = ResultOf<typeof TEST_MATINGS>['testMatings'];

export const PAIR_OUTLOOK = graphql(
  `
    query PairOutlook($sireId: ID!, $damId: ID!, $broodSize: Int!) {
      pairOutlook(sireId: $sireId, damId: $damId, broodSize: $broodSize) {
        warnings {
          severity
          title
          text
          basis
        }
        leftOut {
          name
          locusId
          code
          reason
        }
        loci {
          locusId
          name
          founders
          lostShare
          risks
          rareLeftOut
          assumed
          method
          impossible
          classes {
            phenotype
            probability
            canGive
            lowestShare
            highestShare
            countLow
            countHigh
            anyInBrood
            fryForOne95
          }
          pairs {
            sire
            dam
            probability
            ratio
          }
          waiting {
            ...ComputationParts
          }
        }
      }
    }
  `,
  [computationParts],
);

export type PairLocus = ResultOf<typeof PAIR_OUTLOOK>['pairOutlook']['loci'][number];

export const BROOD_OUTLOOK = graphql(
  `
    query BroodOutlook($spawnId: ID!) {
      broodOutlook(spawnId: $spawnId) {
        setAside
        loci {
          locusId
          name
          founders
          total
          counted
          verdict
          fryToTell
          impossible
          classes {
            phenotype
            observed
            expectedShare
            countLow
            countHigh
          }
          pairs {
            sire
            dam
            ratio
            before
            after
          }
          fit {
            method
            standardError
            statistic
            degreesOfFreedom
            pValue
            pooled
            verdict
            total
            cells {
              name
              observed
              expected
              contribution
            }
          }
          rivals {
            name
            weight
            timesLessLikely
            pValue
          }
          heterogeneity {
            classes
            ratio
            g
            degreesOfFreedom
            pValue
            verdict
            broods {
              spawnId
              counts
              pValue
              spawn {
                id
                tag
              }
            }
          }
          waiting {
            ...ComputationParts
          }
        }
      }
    }
  `,
  [computationParts],
);

export type BroodLocus = ResultOf<typeof BROOD_OUTLOOK>['broodOutlook']['loci'][number];

export const CONTRADICTIONS = graphql(
  `
    query Contradictions($fishId: ID, $spawnId: ID) {
      contradictions(fishId: $fishId, spawnId: $spawnId) {
        lociLookedAt
        moreAt
        found {
          locusId
          name
          smallest
          restsOnFounders
          records {
            recordId
            text
            remedy
            fish {
              id
              tag
            }
            spawn {
              id
              tag
            }
          }
          parentages {
            young {
              id
              tag
            }
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
        waiting {
          ...ComputationParts
        }
      }
    }
  `,
  [computationParts],
);

export type Contradiction = ResultOf<typeof CONTRADICTIONS>['contradictions']['found'][number];

export const PHENOTYPES_SEEN = graphql(`
  query PhenotypesSeen($id: ID!) {
    fish(id: $id) {
      id
      phenotypesSeen {
        id
        locusId
        phenotype
        name
        seenOn
        ageDays
        note
        setAside
        revision
      }
    }
  }
`);

export type SeenPhenotype = ResultOf<typeof PHENOTYPES_SEEN>['fish']['phenotypesSeen'][number];

export const RECORD_PHENOTYPE = graphql(`
  mutation RecordPhenotype($input: RecordPhenotypeInput!) {
    recordPhenotype(input: $input) {
      id
    }
  }
`);

export const WITHDRAW_PHENOTYPE = graphql(`
  mutation WithdrawPhenotype($input: WithdrawInput!) {
    withdrawPhenotype(input: $input) {
      id
    }
  }
`);

export const WHO_CARRIES = graphql(
  `
    query WhoCarries($locusId: String!, $alleleId: String, $lineId: ID, $after: String) {
      whoCarries(locusId: $locusId, alleleId: $alleleId, lineId: $lineId) {
        locusId
        locusName
        alleleId
        alleles {
          id
          symbol
          name
        }
        inUse
        sure
        possible
        unlikely
        notKnown
        recordCount
        founders
        assumed
        method
        whyNone
        waiting {
          ...ComputationParts
        }
        carriers(first: 50, after: $after) {
          totalCount
          pageInfo {
            hasNextPage
            endCursor
          }
          edges {
            node {
              probability
              twice
              only
              fish {
                id
                tag
                name
                sex
                line {
                  id
                  code
                }
              }
            }
          }
        }
      }
    }
  `,
  [computationParts],
);

export type WhoCarries = ResultOf<typeof WHO_CARRIES>['whoCarries'];
export type LikelyCarrier = WhoCarries['carriers']['edges'][number]['node'];
