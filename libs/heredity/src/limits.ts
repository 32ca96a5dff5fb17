import { HeredityError } from './heredity-error.js';

/** The most of everything that this library takes on: beyond it the work would grow without end. */
export const MOST = Object.freeze({
  /** Fish in one count, and young a test or a chance is worked out for. */
  fish: 1_000_000,
  /** Classes counted at a time. */
  classes: 2_000,
  /** Phenotype classes or genotypes listed for one cross. */
  crossClasses: 10_000,
  /** Fish of one class that may be wanted of a brood. */
  wanted: 100_000,
  /** Things an uncertain pair may be. */
  possiblePairs: 10_000,
  /** Joint genotypes of loci that have to be looked at together. */
  jointGenotypes: 100_000,
  /** Alleles of one locus: what the bit sets of carrier probabilities hold. */
  alleles: 7,
  /** Phenotypes of one locus. */
  phenotypes: 50,
  /** Rules of one locus: one for each genotype, and some that are patterns. */
  rules: 100,
  /** Loci in one cross. */
  loci: 40,
});

/** Throws `TOO_LARGE` when `value` is over `most`, naming both and what to do. */
export function assertAtMost(value: number, most: number, what: string, remedy: string): void {
  if (value <= most) return;
  const told = (n: number) => (Number.isFinite(n) ? n.toLocaleString('en') : 'too many');
  throw new HeredityError(
    'TOO_LARGE',
    `${told(value)} ${what}: at most ${told(most)} can be worked out. ${remedy}`,
    { value, most },
  );
}
