import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';
import { namedFish } from './named-fish.js';

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
