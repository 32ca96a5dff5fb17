import { MeritError } from '../merit-error.js';
import type { MeritNote } from '../values/notes.js';

/** Where a fish stands among those that were compared, 1 the highest. */
export interface TwoRanks {
  readonly fish: number;
  readonly first: number;
  readonly second: number;
}

/** Whether two ways of valuing the same fish put them in the same order. */
export interface PartedWays {
  /** Rank correlation (Spearman); `NaN` where one way tells no two fish apart. */
  readonly rankCorrelation: number;
  /** Fish among the best by one way but not by the other. */
  readonly bestDiffer: readonly TwoRanks[];
  /** All fish whose rank differs, those that differ most first. */
  readonly differ: readonly TwoRanks[];
  readonly notes: readonly MeritNote[];
}

/**
 * Whether the threshold model and the plain linear one, or any two ways, order fish alike, and which fish not. Fish of one value share their
 * mean rank.
 *
 * @param among indices of the fish that are compared.
 * @param best how many of the top are looked at; a quarter of them unless given.
 * @throws MeritError MERIT_TOO_FEW for fewer than two fish. Cost: two sorts.
 */
export function partWays(
  first: ArrayLike<number>,
  second: ArrayLike<number>,
  among: readonly number[],
  best = Math.max(1, Math.round(among.length / 4)),
): PartedWays {
  if (among.length < 2)
    throw new MeritError('MERIT_TOO_FEW', 'An order needs two fish or more.', {
      fish: among.length,
    });
  const [a, b] = [ranks(first, among), ranks(second, among)];
  const both = among.map((fish, k): TwoRanks => ({ fish, first: a[k]!, second: b[k]! }));
  const differ = both
    .filter((one) => one.first !== one.second)
    .sort((x, y) => Math.abs(y.first - y.second) - Math.abs(x.first - x.second) || x.fish - y.fish);
  const bestDiffer = differ.filter((one) => one.first <= best !== one.second <= best);
  return {
    rankCorrelation: correlation(a, b),
    bestDiffer,
    differ,
    notes: noteOn(bestDiffer, best),
  };
}

function noteOn(bestDiffer: readonly TwoRanks[], best: number): MeritNote[] {
  if (bestDiffer.length === 0) return [];
  return [
    {
      code: 'MERIT_ORDERS_DIFFER',
      message: `Grades taken in their order and grades taken as numbers do not agree on the best ${best}: ${bestDiffer.length} fish are among them by one and not by the other. Go by the order; where it matters, score more of their relatives.`,
    },
  ];
}

function ranks(values: ArrayLike<number>, among: readonly number[]): Float64Array {
  const order = among.map((_, k) => k).sort((x, y) => values[among[y]!]! - values[among[x]!]!);
  const rank = new Float64Array(among.length);
  for (let from = 0; from < order.length;) {
    let to = from + 1;
    while (to < order.length && valueAt(to) === valueAt(from)) to++;
    for (let k = from; k < to; k++) rank[order[k]!] = (from + 1 + to) / 2;
    from = to;
  }
  return rank;

  function valueAt(k: number): number {
    return values[among[order[k]!]!]!;
  }
}

function correlation(a: Float64Array, b: Float64Array): number {
  const middle = (a.length + 1) / 2;
  let [ab, aa, bb] = [0, 0, 0];
  a.forEach((x, k) => {
    ab += (x - middle) * (b[k]! - middle);
    aa += (x - middle) ** 2;
    bb += (b[k]! - middle) ** 2;
  });
  return ab / Math.sqrt(aa * bb);
}
