import { compareFractions, fraction, sumFractions, type Fraction } from '../fraction.js';
import { formatGenotype } from '../genotype.js';
import { assertAtMost, MOST } from '../limits.js';
import type { Genotype, Locus } from '../locus.js';
import type { LocusGenotypes, PhenotypeClass, PhenotypePart } from './cross-types.js';
import type { GroupClasses } from './groups.js';

interface Combined {
  readonly parts: readonly PhenotypePart[];
  readonly numerator: bigint;
}

function combineClasses(groups: readonly GroupClasses[]): {
  list: Combined[];
  denominator: bigint;
} {
  let list: Combined[] = [{ parts: [], numerator: 1n }];
  let denominator = 1n;
  for (const group of groups) {
    // More are of no use to anyone, and would fill memory.
    assertAtMost(
      list.length * group.classes.length,
      MOST.crossClasses,
      'phenotype classes of a cross',
      'Look at fewer loci at a time.',
    );
    let common = 1n;
    for (const { share } of group.classes) {
      if (share.denominator !== common) {
        common = fraction(common, share.denominator).numerator * share.denominator;
      }
    }
    denominator *= common;
    list = list.flatMap((one) =>
      group.classes.map(({ parts, share }) => ({
        parts: [...one.parts, ...parts],
        numerator:
          one.numerator *
          (share.denominator === common
            ? share.numerator
            : (share.numerator * common) / share.denominator),
      })),
    );
  }
  return { list, denominator };
}

function keyOf(parts: readonly PhenotypePart[]): string {
  return parts.map((part) => `${part.loci.join('+')}=${part.phenotype}`).join('|');
}

/** Most frequent first. */
export function byFrequency<T extends { readonly probability: Fraction }>(classes: T[]): T[] {
  // Stable: classes of equal frequency stay in the order of the alleles.
  return classes.sort((a, b) => compareFractions(b.probability, a.probability));
}

/** Phenotype classes over all groups, most frequent first. */
export function toPhenotypeClasses(
  groups: readonly GroupClasses[],
  loci: readonly Locus[],
): PhenotypeClass[] {
  const order = new Map(loci.map((locus, i) => [locus.id, i]));
  const rank = (part: PhenotypePart | undefined) =>
    Math.min(...(part?.loci ?? []).map((id) => order.get(id) ?? Number.MAX_SAFE_INTEGER));
  const { list, denominator } = combineClasses(groups);
  // All classes have their parts in the same order, so the order asked for is one permutation.
  const first = list[0]?.parts ?? [];
  const places = first.map((_, i) => i).sort((a, b) => rank(first[a]) - rank(first[b]));
  const reduced = new Map<bigint, Fraction>();
  const probabilityOf = (numerator: bigint) => {
    const known = reduced.get(numerator) ?? fraction(numerator, denominator);
    reduced.set(numerator, known);
    return known;
  };
  list.sort((a, b) => (a.numerator < b.numerator ? 1 : a.numerator > b.numerator ? -1 : 0));
  return list.map(({ parts, numerator }) => {
    const sorted = places.flatMap((i) => parts[i] ?? []);
    return {
      key: keyOf(sorted),
      label: sorted.map((part) => part.name).join(', '),
      parts: sorted,
      probability: probabilityOf(numerator),
    };
  });
}

/** Genotypes of the survivors at each locus by itself. */
export function toLocusGenotypes(
  groups: readonly GroupClasses[],
  loci: readonly Locus[],
): LocusGenotypes[] {
  return loci.map((locus) => {
    const group = groups.find((one) => one.genotypes[0]?.genotypes[locus.id] !== undefined);
    const found = new Map<string, { genotype: Genotype; shares: Fraction[] }>();
    for (const { genotypes, share } of group?.genotypes ?? []) {
      const genotype = genotypes[locus.id];
      if (!genotype) continue;
      const key = genotype.join('/');
      const entry = found.get(key) ?? { genotype, shares: [] };
      entry.shares.push(share);
      found.set(key, entry);
    }
    const genotypes = [...found.values()].map(({ genotype, shares }) => ({
      genotype,
      text: formatGenotype(locus, genotype),
      probability: sumFractions(shares),
    }));
    return { locus: locus.id, genotypes: byFrequency(genotypes) };
  });
}
