import { computationParts } from './carriers.js';
import { graphql, type ResultOf } from './graphql.js';

/** Whom of a brood to keep: all of its young up to the largest page. */
export const BROOD_KEEPING = graphql(
  `
    query BroodKeeping($spawnId: ID!) {
      broodKeeping(spawnId: $spawnId) {
        lineId
        purposeVersion
        hasAims
        matesAre
        mateCount
        mateTotal
        living
        kinshipWithLine
        leftOut
        problem
        number {
          males
          females
          basis
          roundId
          keep
          broods
          lost
        }
        kept {
          males
          females
          others
        }
        alleles {
          locusId
          locusName
          alleleId
          name
          symbol
          carriers
          lastKnown
        }
        notCounted {
          trait {
            id
            name
          }
          reason
        }
        waiting {
          ...ComputationParts
        }
        young(first: 200) {
          totalCount
          edges {
            node {
              worth
              standardError
              place
              of
              advice
              fish {
                id
                tag
                sex
                disposition
              }
              alleles {
                locusId
                alleleId
                chance
                others
                last
              }
            }
          }
        }
      }
    }
  `,
  [computationParts],
);

export type BroodKeeping = ResultOf<typeof BROOD_KEEPING>['broodKeeping'];
export type YoungToKeep = BroodKeeping['young']['edges'][number]['node'];
export type NumberToKeep = NonNullable<BroodKeeping['number']>;
export type AlleleOfLine = BroodKeeping['alleles'][number];
