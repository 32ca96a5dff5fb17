import { findLocus } from './catalogue/catalogue.js';
import { toFraction, type Fraction } from './fraction.js';
import { allGenotypes, genotypeFits } from './genotype.js';
import { HeredityError } from './heredity-error.js';
import type { Genotype, Locus, LocusReference, Phenotype } from './locus.js';

/** A phenotype with the exact probability that a genotype shows it. */
export interface WeightedPhenotype {
  readonly phenotype: Phenotype;
  readonly probability: Fraction;
}

/** Throws `LOCUS_NOT_COMPUTABLE`, saying why, for a locus that is recorded only. */
export function assertComputable(locus: Locus): void {
  if (locus.computable) return;
  throw new HeredityError(
    'LOCUS_NOT_COMPUTABLE',
    `${locus.name} (${locus.id}) is recorded but not computed: ${locus.whyNot ?? 'no reason given'}`,
    { locus: locus.id },
  );
}

/**
 * What fish of a genotype show at this locus, taken by itself: one phenotype, or several where penetrance is reduced.
 * Probabilities sum to 1. Empty for a locus whose expression is not computed.
 *
 * @throws HeredityError `LOCUS_UNKNOWN`, `ALLELE_UNKNOWN`, `PHENOTYPE_UNDEFINED`.
 * @example phenotypesOf('bl', ['turquoise', 'steel'])[0]?.phenotype.name // 'royal blue'
 */
export function phenotypesOf(ref: LocusReference, genotype: Genotype): WeightedPhenotype[] {
  const locus = findLocus(ref);
  if (!locus.computable) return [];
  const rule = locus.expression.find((one) => genotypeFits(locus, genotype, one.genotype));
  if (!rule) {
    throw new HeredityError(
      'PHENOTYPE_UNDEFINED',
      `Locus ${locus.id} does not say what ${genotype.join('/')} looks like. Add a rule for it.`,
      { locus: locus.id, genotype: genotype.join('/') },
    );
  }
  return rule.shows.map((outcome) => ({
    phenotype: phenotypeById(locus, outcome.phenotype),
    probability: toFraction(outcome.probability),
  }));
}

/** The genotypes that can show a phenotype. Throws `PHENOTYPE_UNKNOWN`. */
export function genotypesShowing(ref: LocusReference, phenotypeId: string): Genotype[] {
  const locus = findLocus(ref);
  phenotypeById(locus, phenotypeId);
  return allGenotypes(locus).filter((genotype) =>
    phenotypesOf(locus, genotype).some(
      (one) => one.phenotype.id === phenotypeId && one.probability.numerator > 0n,
    ),
  );
}

/** Throws `PHENOTYPE_UNKNOWN`. */
export function phenotypeById(locus: Locus, id: string): Phenotype {
  const found = locus.phenotypes.find((one) => one.id === id);
  if (!found) {
    throw new HeredityError(
      'PHENOTYPE_UNKNOWN',
      `"${id}" is not a phenotype of ${locus.id}; known: ${locus.phenotypes.map((one) => one.id).join(', ')}.`,
      { locus: locus.id, phenotype: id },
    );
  }
  return found;
}
