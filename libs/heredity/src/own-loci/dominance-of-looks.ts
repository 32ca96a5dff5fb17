import { compareFractions } from '../fraction.js';
import type { AlleleId, Dominance, Locus } from '../locus.js';
import { phenotypesOf, type WeightedPhenotype } from '../phenotypes.js';

const alike = (a: readonly WeightedPhenotype[], b: readonly WeightedPhenotype[]): boolean =>
  a.length === b.length &&
  a.every((one) =>
    b.some(
      (other) =>
        other.phenotype.id === one.phenotype.id &&
        compareFractions(other.probability, one.probability) === 0,
    ),
  );

/**
 * The dominance that the looks of a locus amount to: `variable` where a genotype shows more than one look, `complete` where
 * every heterozygote looks like one of the two homozygotes, `incomplete` where some heterozygote looks like neither,
 * `unknown` where all genotypes look alike or looks are not computed.
 *
 * @throws HeredityError `PHENOTYPE_UNDEFINED` for a genotype without a look.
 * @example dominanceOfLooks(findLocus('dt')) // 'complete'
 */
export function dominanceOfLooks(locus: Locus): Dominance {
  if (!locus.computable) return 'unknown';
  // A withdrawn locus stays readable; as an input it would be refused.
  const readable: Locus = { ...locus, status: 'current' };
  const looks = (a: AlleleId, b: AlleleId) => phenotypesOf(readable, [a, b]);
  const pairs = locus.alleles.flatMap((a, i) =>
    locus.alleles.slice(i + 1).map((b) => ({
      first: looks(a.id, a.id),
      mixed: looks(a.id, b.id),
      second: looks(b.id, b.id),
    })),
  );
  const all = pairs.flatMap((one) => [one.first, one.mixed, one.second]);
  const [any] = all;
  if (any === undefined || all.every((one) => alike(one, any))) return 'unknown';
  if (all.some((one) => one.length > 1)) return 'variable';
  return pairs.every((one) => alike(one.mixed, one.first) || alike(one.mixed, one.second))
    ? 'complete'
    : 'incomplete';
}
