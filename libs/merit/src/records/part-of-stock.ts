import { type Pedigree, RandomBits } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';

/** A part of a stock: whole broods of scored fish with their nearest ancestors. */
export interface PartOfStock {
  /** Places of the scores that belong to it, rising. */
  readonly rows: Int32Array;
  /** Indices of its fish, scored ones and ancestors, rising. */
  readonly members: Int32Array;
  readonly scoredFish: number;
  readonly broods: number;
}

export interface PartOptions {
  /** Broods are taken until so many scored fish are in the part. */
  readonly most: number;
  /** Generations of ancestors that are taken along; those before them become unknown. */
  readonly generations: number;
  readonly seed?: number;
}

/**
 * Draws a part of a stock in which variances can be estimated when the whole is too large: broods by chance, all scored fish of each, so that
 * nothing about a fish decides whether it is in. What is left out of the pedigree behind them makes far relatives look like strangers.
 *
 * @param fish index of each score's fish. Cost: linear. @throws MeritError MERIT_OUT_OF_RANGE.
 */
export function partOfStock(
  { size, sire, dam }: Pick<Pedigree, 'size' | 'sire' | 'dam'>,
  fish: Int32Array,
  { most, generations, seed = 1 }: PartOptions,
): PartOfStock {
  if (!(most >= 1 && generations >= 1))
    throw new MeritError('MERIT_OUT_OF_RANGE', 'A part needs a fish and a generation of parents.');
  const broods = new Map<string, Set<number>>();
  for (const i of fish) {
    const known = sire[i]! >= 0 || dam[i]! >= 0;
    const key = known ? `${sire[i]!} ${dam[i]!}` : `alone ${i}`;
    broods.set(key, (broods.get(key) ?? new Set()).add(i));
  }
  const bits = new RandomBits(seed);
  const order = [...broods.values()].map((brood) => ({ brood, at: bits.uniform() }));
  order.sort((a, b) => a.at - b.at);
  const chosen = new Set<number>();
  let taken = 0;
  for (const { brood } of order) {
    if (chosen.size >= most) break;
    taken += 1;
    for (const i of brood) chosen.add(i);
  }
  const within = new Uint8Array(size);
  let now = [...chosen];
  for (let back = 0; back <= generations; back++) {
    for (const i of now) within[i] = 1;
    now = now
      .flatMap((i) => [sire[i]!, dam[i]!])
      .filter((parent) => parent >= 0 && within[parent] === 0);
  }
  return {
    rows: Int32Array.from([...fish.keys()].filter((row) => chosen.has(fish[row]!))),
    members: Int32Array.from([...within.keys()].filter((i) => within[i] === 1)),
    scoredFish: chosen.size,
    broods: taken,
  };
}
