import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';

const figureParts = graphql(`
  fragment StockFigureParts on StockFigure {
    value
    whyNone
    standardError
    inputs {
      name
      value
    }
  }
`);

export type StockFigure = ResultOf<typeof figureParts>;

const namedFish = graphql(`
  fragment NamedFishParts on NamedFish {
    id
    unknownParentOf
    tag
    sex
    disposition
    lineCode
  }
`);

export type NamedFish = ResultOf<typeof namedFish>;

const unequalShare = graphql(
  `
    fragment UnequalShareParts on UnequalShare {
      fish {
        ...NamedFishParts
      }
      unknownParent
      share
      equalShare
      young
    }
  `,
  [namedFish],
);

export type UnequalShare = ResultOf<typeof unequalShare>;

export const LINE_HEALTH = graphql(
  `
    query LineHealth($lineId: ID!, $includeUnsorted: Boolean) {
      lineHealth(lineId: $lineId, includeUnsorted: $includeUnsorted) {
        line {
          id
          code
          name
        }
        fishCount
        inUseCount
        whyNone
        waiting {
          ...ComputationParts
        }
        figures {
          inbreeding {
            ...StockFigureParts
          }
          lowestInbreeding
          highestInbreeding
          maleByFemale {
            ...StockFigureParts
          }
          meanKinship {
            ...StockFigureParts
          }
          completeness {
            ...StockFigureParts
          }
          completenessByGeneration
          generationInterval {
            ...StockFigureParts
          }
          rate {
            ...StockFigureParts
          }
          byGeneration {
            generation
            count
            mean
            lowest
            highest
            inbred
            notKnownCount
            meanEquivalents
          }
          points {
            fish {
              id
              tag
            }
            generation
            inbreedingCoefficient
            inbreedingBasis
          }
          sharesOverTime {
            founders {
              fish {
                id
                tag
              }
              unknownParent
            }
            generations {
              generation
              count
              shares
            }
          }
          founders {
            fish {
              ...NamedFishParts
            }
            unknownParent
            contribution
            retention
            survival
            standardError
          }
          ancestors {
            fish {
              ...NamedFishParts
            }
            unknownParent
            marginal
            total
          }
          effective {
            founders {
              ...StockFigureParts
            }
            ancestors {
              ...StockFigureParts
            }
            genomesByRetention {
              ...StockFigureParts
            }
            genomesByKinship {
              ...StockFigureParts
            }
            sizeFromInbreeding {
              ...StockFigureParts
            }
            sizeFromRate {
              ...StockFigureParts
            }
            sizeFromSexes {
              ...StockFigureParts
            }
            sizeFromFamilies {
              ...StockFigureParts
            }
          }
          overContributors {
            founders {
              ...UnequalShareParts
            }
            sires {
              ...UnequalShareParts
            }
            dams {
              ...UnequalShareParts
            }
          }
          rarestFounders {
            fish {
              ...NamedFishParts
            }
            unknownParent
            contribution
            moreAsMuch
            carriers {
              fish {
                ...NamedFishParts
              }
              share
            }
          }
          kinship {
            fish {
              ...NamedFishParts
            }
            meanKinship
            inbreedingCoefficient
            inbreedingBasis
          }
        }
      }
    }
  `,
  [figureParts, namedFish, unequalShare, computationParts],
);

export type LineHealth = ResultOf<typeof LINE_HEALTH>['lineHealth'];
export type LineFigures = NonNullable<LineHealth['figures']>;

export const RELATIONSHIP_MAP = graphql(
  `
    query RelationshipMap($lineIds: [ID!], $includeUnsorted: Boolean) {
      relationshipMap(lineIds: $lineIds, includeUnsorted: $includeUnsorted) {
        fish {
          fish {
            ...NamedFishParts
          }
          standsFor
          family
          inbreedingCoefficient
          inbreedingBasis
          meanKinship
        }
        families {
          start
          count
          joinedAt
        }
        familyAt
        coancestry
        inUseCount
        whyNone
      }
    }
  `,
  [namedFish],
);

export type RelationshipMapAnswer = ResultOf<typeof RELATIONSHIP_MAP>['relationshipMap'];

export const INBREEDING_SOURCES = graphql(
  `
    query InbreedingSources($id: ID!) {
      fish(id: $id) {
        id
        inbreedingSources {
          coefficient
          byFounder {
            fish {
              ...NamedFishParts
            }
            unknownParent
            contribution
          }
          originCount
          byOrigin {
            ancestor {
              ...NamedFishParts
            }
            contribution
            meanGenerations
          }
          meanGenerations
          complete
          byGenerations
          ancestralInbreeding
        }
      }
    }
  `,
  [namedFish],
);

export type InbreedingSources = ResultOf<typeof INBREEDING_SOURCES>['fish']['inbreedingSources'];
