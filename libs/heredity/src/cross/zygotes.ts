import { assertAtMost } from '../limits.js';
import type { Genotype, Locus } from '../locus.js';
import type { GameteTable } from './gametes.js';

/** Genotypes of zygotes at the loci of one chromosome: per locus a pair of allele places, lower first. */
export interface ZygoteTable {
  readonly zygotes: readonly {
    readonly genotypes: readonly (readonly [number, number])[];
    readonly weight: bigint;
  }[];
  readonly total: bigint;
}

const MOST_UNIONS = 1_000_000;
const LARGEST_EXACT = BigInt(Number.MAX_SAFE_INTEGER);

/**
 * Joins every gamete of the sire with every gamete of the dam. Exact: whole numbers are added as doubles only while all of
 * them stay within the safe integers. Cost: the product of the numbers of gametes.
 */
export function zygoteTable(
  sire: GameteTable,
  dam: GameteTable,
  loci: readonly Locus[],
): ZygoteTable {
  assertAtMost(
    sire.gametes.length * dam.gametes.length,
    MOST_UNIONS,
    `unions of gametes at ${loci.map((locus) => locus.id).join(', ')}, which are linked`,
    'Look at fewer linked loci at a time.',
  );
  const total = sire.total * dam.total;
  const zygotes =
    total <= LARGEST_EXACT
      ? join(
          sire,
          dam,
          loci,
          Number,
          0,
          (a, b) => a * b,
          (a, b) => a + b,
        ).map((one) => ({
          genotypes: one.genotypes,
          weight: BigInt(one.weight),
        }))
      : join(
          sire,
          dam,
          loci,
          (weight) => weight,
          0n,
          (a, b) => a * b,
          (a, b) => a + b,
        );
  return { zygotes, total };
}

interface Joined<W> {
  readonly genotypes: readonly (readonly [number, number])[];
  readonly weight: W;
}

function join<W>(
  sire: GameteTable,
  dam: GameteTable,
  loci: readonly Locus[],
  read: (weight: bigint) => W,
  zero: W,
  times: (a: W, b: W) => W,
  plus: (a: W, b: W) => W,
): Joined<W>[] {
  const sizes = loci.map((locus) => locus.alleles.length);
  const places = new Map<number, number>();
  const genotypes: (readonly [number, number])[][] = [];
  const weights: W[] = [];
  const damWeights = dam.gametes.map((one) => read(one.weight));
  for (const { alleles: fromSire, weight } of sire.gametes) {
    const sireWeight = read(weight);
    dam.gametes.forEach(({ alleles: fromDam }, d) => {
      let key = 0;
      for (let i = 0; i < sizes.length; i++) {
        const a = fromSire[i] ?? 0;
        const b = fromDam[i] ?? 0;
        const n = sizes[i] ?? 1;
        key = key * n * n + (a <= b ? a * n + b : b * n + a);
      }
      let place = places.get(key);
      if (place === undefined) {
        place = weights.length;
        places.set(key, place);
        weights.push(zero);
        genotypes.push(sizes.map((_, i) => pairOf(fromSire[i], fromDam[i])));
      }
      weights[place] = plus(weights[place] ?? zero, times(sireWeight, damWeights[d] ?? zero));
    });
  }
  return weights.map((weight, i) => ({ genotypes: genotypes[i] ?? [], weight }));
}

function pairOf(a = 0, b = 0): readonly [number, number] {
  return a <= b ? [a, b] : [b, a];
}

/** Allele places back to allele ids. */
export function genotypeAt(locus: Locus, pair: readonly [number, number]): Genotype {
  return [locus.alleles[pair[0]]?.id ?? '', locus.alleles[pair[1]]?.id ?? ''];
}
