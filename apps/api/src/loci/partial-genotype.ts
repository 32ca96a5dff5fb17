import {
  type Genotype,
  type GenotypeInput,
  genotypesShowing,
  type Locus,
  parsePartialGenotype,
  type WeightedGenotypeInput,
} from '@linewright/heredity';

/** Frequencies by allele, equal ones where none are set: what a fish of which nothing is known is drawn from. */
export const frequenciesOf = (
  locus: Locus,
  set: Readonly<Record<string, number>> | null,
): Record<string, number> => {
  const names = locus.alleles.map((one) => one.id);
  const fits = set !== null && names.every((id) => set[id] !== undefined);
  return Object.fromEntries(names.map((id) => [id, fits ? (set[id] ?? 0) : 1 / names.length]));
};

/**
 * A genotype known in part as the genotypes it may be, weighted: Hardy-Weinberg proportions of the allele frequencies,
 * given what is known of it. `C/-` with C and c equally common is C/C 1/3, C/c 2/3. One known wholly stays as it is.
 *
 * @throws HeredityError of a genotype that cannot be read.
 */
export const spellOut = (
  locus: Locus,
  text: string,
  set: Readonly<Record<string, number>> | null,
): GenotypeInput => {
  if (!text.includes('-') || !locus.computable) return text.trim();
  const possible = parsePartialGenotype(locus, text);
  if (possible.length < 2) return text.trim();
  return weighed(locus, possible, set);
};

/** A fish of which only the look is known, as the genotypes it may be, weighted as {@link spellOut} does; null when none shows it. */
export const fromLook = (
  locus: Locus,
  phenotype: string,
  set: Readonly<Record<string, number>> | null,
): GenotypeInput | null => {
  const possible = genotypesShowing(locus, phenotype);
  return possible.length === 0 ? null : weighed(locus, possible, set);
};

const weighed = (
  locus: Locus,
  possible: readonly Genotype[],
  set: Readonly<Record<string, number>> | null,
): WeightedGenotypeInput[] => {
  const frequencies = frequenciesOf(locus, set);
  const weights = possible.map(
    ([a, b]) => (a === b ? 1 : 2) * (frequencies[a] ?? 0) * (frequencies[b] ?? 0),
  );
  const sum = weights.reduce((x, y) => x + y, 0);
  return possible.map((genotype, i): WeightedGenotypeInput => ({
    genotype,
    probability: sum > 0 ? (weights[i] ?? 0) / sum : 1 / possible.length,
  }));
};
