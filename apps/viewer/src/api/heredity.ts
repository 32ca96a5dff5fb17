import { graphql, type ResultOf } from './graphql.js';

export const crossClassParts = graphql(`
  fragment CrossClassParts on CrossClass {
    phenotype
    fraction
    probability
    expectedCount
    fryForOne95
    parts {
      locusIds
      hidden
      phenotype
    }
  }
`);

export const crossParts = graphql(
  `
    fragment CrossParts on CrossExpectation {
      locusIds
      lostFraction
      assumed
      classes {
        ...CrossClassParts
        shares {
          weight
          fraction
        }
      }
      notComputed {
        name
        locusId
        reason
      }
    }
  `,
  [crossClassParts],
);

export type Cross = ResultOf<typeof crossParts>;

export const LOCUS_CHOICES = graphql(`
  query LocusChoices {
    loci {
      id
      name
      computable
      whyNotComputable
      confidence
      isWithdrawn
      visible {
        id
        name
      }
      notations {
        id
        name
        symbols
      }
      phenotypes {
        genotype
        phenotype
      }
    }
  }
`);

export type LocusChoice = ResultOf<typeof LOCUS_CHOICES>['loci'][number];

export const SPAWN_EXPECTATION = graphql(
  `
    query SpawnExpectation($spawnId: ID!) {
      spawnExpectation(spawnId: $spawnId) {
        ...CrossParts
      }
    }
  `,
  [crossParts],
);

export const GOODNESS_OF_FIT = graphql(`
  query GoodnessOfFit($input: FitInput!) {
    goodnessOfFit(input: $input) {
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
  }
`);

export type Fit = ResultOf<typeof GOODNESS_OF_FIT>['goodnessOfFit'];
