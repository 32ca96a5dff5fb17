import { graphql, type ResultOf } from './graphql.js';
import { crossParts } from './heredity.js';

export const LOCI = graphql(`
  query Loci {
    loci {
      id
      name
      own
      version
      isWithdrawn
      recordId
      revision
      dominance
      computable
      whyNotComputable
      confidence
      confidenceNote
      epistasis
      risks
      scorableFromDays
      sources
      alternativeSymbols
      note
      alleles {
        id
        symbol
        name
      }
      phenotypes {
        genotype
        phenotype
      }
    }
  }
`);

export type KnownLocus = ResultOf<typeof LOCI>['loci'][number];

export const CROSS = graphql(
  `
    query Cross($input: CrossInput!) {
      cross(input: $input) {
        ...CrossParts
      }
    }
  `,
  [crossParts],
);

export const BROOD_SIZE = graphql(`
  query BroodSize($input: BroodSizeInput!) {
    broodSize(input: $input)
  }
`);
