import { fraction, type Fraction } from '../fraction.js';
import type { WeightedGenotype } from '../genotype.js';
import { assertAtMost } from '../limits.js';
import type { AlleleId, Locus } from '../locus.js';
import type { Phase } from './cross-types.js';

const MOST_PATHS = 1_000_000;

/** Gametes of one parent at the loci of one chromosome: allele places by locus, with whole-number weights over `total`. */
export interface GameteTable {
  readonly gametes: readonly { readonly alleles: readonly number[]; readonly weight: bigint }[];
  readonly total: bigint;
}

function commonDenominator(values: readonly Fraction[]): bigint {
  let common = 1n;
  for (const { denominator } of values)
    common = fraction(common, denominator).numerator * denominator;
  return common;
}

const over = (value: Fraction, common: bigint): bigint =>
  (value.numerator * common) / value.denominator;

/** Both chromosomes of a parent, at the loci of a block, for every phase that is possible. */
function phases(
  pairs: readonly (readonly [number, number])[],
  phase: Phase,
): (readonly (readonly [number, number])[])[] {
  const heterozygous = pairs.flatMap(([a, b], i) => (a === b ? [] : [i]));
  if (phase === 'as-written' || heterozygous.length < 2) return [pairs];
  // The first heterozygous locus fixes which chromosome is called the first.
  const free = heterozygous.slice(1);
  return Array.from({ length: 1 << free.length }, (_, mask) =>
    pairs.map((pair, i): readonly [number, number] => {
      const place = free.indexOf(i);
      return place >= 0 && (mask >> place) & 1 ? [pair[1], pair[0]] : pair;
    }),
  );
}

/** Gametes found so far, each with the weight of all the ways that lead to it. */
class GameteTally {
  readonly #found = new Map<string, { alleles: number[]; weight: bigint }>();

  constructor(private readonly recombination: readonly Fraction[]) {}

  /** All gametes of two chromosomes, on either of which a strand begins. */
  follow(pairs: readonly (readonly [number, number])[], weight: bigint): void {
    const alleles: number[] = [];
    const step = (locus: number, strand: 0 | 1, w: bigint) => {
      alleles[locus] = pairs[locus]?.[strand] ?? 0;
      if (locus === pairs.length - 1) {
        this.#add(alleles, w);
        return;
      }
      const r = this.recombination[locus] ?? fraction(1, 2);
      const stay = w * (r.denominator - r.numerator);
      if (stay > 0n) step(locus + 1, strand, stay);
      if (r.numerator > 0n) step(locus + 1, strand === 0 ? 1 : 0, w * r.numerator);
    };
    step(0, 0, weight);
    step(0, 1, weight);
  }

  gametes(): GameteTable['gametes'] {
    return [...this.#found.values()];
  }

  #add(alleles: readonly number[], weight: bigint): void {
    const key = alleles.join(',');
    const earlier = this.#found.get(key);
    if (earlier) earlier.weight += weight;
    else this.#found.set(key, { alleles: [...alleles], weight });
  }
}

/**
 * Gametes of a parent over one row of loci.
 *
 * Either chromosome is followed from the first locus with probability 1/2 and left for the other in interval i with its
 * recombination fraction. Uncertain genotypes are averaged over. Weights are exact. Throws `TOO_LARGE`.
 */
export function gameteTable(
  loci: readonly Locus[],
  genotypes: readonly (readonly WeightedGenotype[])[],
  recombination: readonly Fraction[],
  phase: Phase,
): GameteTable {
  assertAtMost(
    genotypes.reduce(
      (product, list) => product * list.length * 2,
      phase === 'unknown' ? 2 ** loci.length : 1,
    ),
    MOST_PATHS,
    `ways to pass on ${loci.map((locus) => locus.id).join(', ')}, which are linked`,
    'Look at fewer linked loci at a time.',
  );
  const place = loci.map((locus) => new Map(locus.alleles.map((one, i) => [one.id, i])));
  const placeOf = (locus: number, id: AlleleId) => place[locus]?.get(id) ?? 0;
  const commons = genotypes.map((list) => commonDenominator(list.map((g) => g.probability)));
  // Room to divide by the number of phases.
  const scale = phase === 'unknown' ? 1n << BigInt(loci.length) : 1n;
  let total = 2n * scale;
  for (const common of commons) total *= common;
  for (const r of recombination) total *= r.denominator;

  const tally = new GameteTally(recombination);
  const choose = (locus: number, pairs: (readonly [number, number])[], weight: bigint) => {
    if (locus === loci.length) {
      const all = phases(pairs, phase);
      const each = (weight * scale) / BigInt(all.length);
      for (const one of all) tally.follow(one, each);
      return;
    }
    const common = commons[locus] ?? 1n;
    for (const { genotype, probability } of genotypes[locus] ?? []) {
      const pair = [placeOf(locus, genotype[0]), placeOf(locus, genotype[1])] as const;
      choose(locus + 1, [...pairs, pair], weight * over(probability, common));
    }
  };
  choose(0, [], 1n);
  return { gametes: tally.gametes(), total };
}
