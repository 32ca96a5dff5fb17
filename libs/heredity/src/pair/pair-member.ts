import { fractionToNumber, toFraction } from '../fraction.js';
import type { GenotypeInput, GenotypeSet } from '../genotype.js';
import { genotypeFits, parsePartialGenotype } from '../genotype.js';
import type { Genotype, Locus, LocusId, LocusReference, PhenotypeId } from '../locus.js';
import { phenotypesOf } from '../phenotypes.js';

/** Something seen on a fish that a planned pair may be warned about, whatever is known of its genotype. */
export type WarningTrait =
  | 'melano'
  | 'double-tail'
  | 'rosetail'
  | 'marble'
  | 'opaque'
  | 'metallic'
  | 'albino'
  | 'dumbo'
  | 'giant'
  | 'crowntail'
  | 'red-loss'
  | 'butterfly';

/** One parent of a planned pair. Genotypes may be partial (`M/-`) or uncertain; traits are what is seen. */
export interface PairMember {
  readonly genotypes: GenotypeSet;
  readonly traits?: readonly WarningTrait[];
}

export type Answer = 'yes' | 'possible' | 'no' | 'unknown';

/** Every genotype that a record leaves open; none when nothing is recorded. */
export function possibleGenotypes(
  locus: LocusReference,
  input: GenotypeInput | undefined,
): Genotype[] {
  if (input === undefined) return [];
  if (typeof input === 'string') return parsePartialGenotype(locus, input);
  if (typeof input[0] === 'string') return [input as Genotype];
  return (input as Exclude<GenotypeInput, string | Genotype>).flatMap(({ genotype, probability }) =>
    toFraction(probability).numerator === 0n
      ? []
      : typeof genotype === 'string'
        ? parsePartialGenotype(locus, genotype)
        : [genotype],
  );
}

/** `yes` when it holds of all that may be, `possible` when of some, `no` when of none. */
function over(chances: readonly number[]): Answer {
  if (chances.length === 0) return 'unknown';
  if (chances.every((chance) => chance === 1)) return 'yes';
  return chances.some((chance) => chance > 0) ? 'possible' : 'no';
}

/**
 * Whether a phenotype of a locus is to be seen on a fish, as far as its record tells: its own genotype, and those of loci that
 * would hide it. One of these that is not on record is taken not to.
 *
 * @param known the catalogue with a person's own loci.
 * @throws HeredityError of genotypes that cannot be read.
 * @example showsPhenotype({ b: 'b/b', c: 'c/c' }, findLocus('b'), 'blond', catalogue) // 'no': seen on a dark body only
 */
export function showsPhenotype(
  genotypes: GenotypeSet,
  locus: Locus,
  phenotypeId: PhenotypeId,
  known: readonly Locus[],
): Answer {
  const chance = (of: Locus, genotype: Genotype, phenotypes: readonly PhenotypeId[]) =>
    phenotypesOf(of, genotype)
      .filter((one) => phenotypes.includes(one.phenotype.id))
      .reduce((sum, one) => sum + fractionToNumber(one.probability), 0);
  const own = over(
    possibleGenotypes(locus, genotypes[locus.id]).map((one) => chance(locus, one, [phenotypeId])),
  );
  if (own === 'no') return own;
  const hiding = locus.hiddenBy.map((gate) => {
    const hider = known.find((one) => one.id === gate.locus);
    if (!hider?.computable) return 'unknown';
    return over(
      possibleGenotypes(hider, genotypes[hider.id]).map((one) =>
        chance(hider, one, gate.phenotypes),
      ),
    );
  });
  if (hiding.includes('yes')) return 'no';
  return own === 'yes' && hiding.includes('possible') ? 'possible' : own;
}

/** Whether a fish has a genotype that fits `pattern`, as far as its record tells. */
export function hasGenotype(member: PairMember, locus: LocusId, pattern: string): Answer {
  const possible = possibleGenotypes(locus, member.genotypes[locus]);
  if (possible.length === 0) return 'unknown';
  const fitting = possible.filter((genotype) => genotypeFits(locus, genotype, pattern)).length;
  return fitting === possible.length ? 'yes' : fitting > 0 ? 'possible' : 'no';
}

/** Whether a fish shows a trait: seen on it, or certain from its genotype. */
export function showsTrait(
  member: PairMember,
  trait: WarningTrait,
  locus?: LocusId,
  pattern?: string,
): Answer {
  if (member.traits?.includes(trait)) return 'yes';
  return locus !== undefined && pattern !== undefined
    ? hasGenotype(member, locus, pattern)
    : 'unknown';
}
