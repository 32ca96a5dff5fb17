import { ancestors, NO_PARENT, type Pedigree } from '@linewright/pedigree';

/** What one common ancestor adds to the F of a brood. */
export interface CommonAncestor {
  readonly index: number;
  readonly id: string;
  /** Sum over its paths of (1/2)^(steps + 1) (1 + F of the ancestor). */
  readonly contribution: number;
  /** Its own inbreeding coefficient. */
  readonly inbreeding: number;
  /** How many of Wright's paths turn at it; `null` when there are more than 2^53. */
  readonly pathCount: number | null;
}

/** The common ancestors of a pair, and how much of the brood's F they account for. */
export interface CommonAncestry {
  /** Largest contribution first; of equals the younger first. */
  readonly ancestors: readonly CommonAncestor[];
  /** How many common ancestors contribute, listed or not. */
  readonly count: number;
  /** Sum of all contributions found, listed or not. Equals the brood's F unless very old ancestors were left out. */
  readonly accountedFor: number;
  /** `false` when more than `mostFish` ancestors lead to a common one and the oldest were left out. */
  readonly complete: boolean;
}

/**
 * The common ancestors of a pair by what each adds to F, without listing paths.
 *
 * Two lineages are followed back from sire and dam, always stepping from the younger of the two fish to both of its
 * parents with weight 1/2. Where both lineages stand on one fish they have met there first, so the weight that arrives is
 * the sum over Wright's (1922) paths through that ancestor, on which no other fish stands twice; times (1 + F) / 2 it is
 * the ancestor's part of the brood's F. The parts add up to F exactly (up to rounding).
 *
 * @param inbreeding F of every fish of the pedigree, in index order.
 * @param limit How many ancestors to list.
 * @param mostFish Ancestors of the pair to look at, youngest first, of those that are common or descend from a common one. Leaving out
 * the oldest keeps the other parts exact.
 *
 * Cost: at most the square of the number of those ancestors in time and in memory.
 */
export function commonAncestors(
  p: Pedigree,
  inbreeding: Float64Array,
  sire: number,
  dam: number,
  limit = 3,
  mostFish = 2000,
): CommonAncestry {
  const all = lineages(p, sire, dam);
  const fish = all.length > mostFish ? all.slice(all.length - mostFish) : all;
  const met = meetings(p, fish, sire, dam);
  const found: CommonAncestor[] = [];
  let accountedFor = 0;
  for (let k = fish.length - 1; k >= 0; k--) {
    const weight = met.weight[k] ?? 0;
    if (weight === 0) continue;
    const index = fish[k] ?? 0;
    const own = inbreeding[index] ?? 0;
    const contribution = (weight * (1 + own)) / 2;
    accountedFor += contribution;
    const ways = met.ways[k] ?? 0;
    found.push({
      index,
      id: p.ids[index] ?? String(index),
      contribution,
      inbreeding: own,
      pathCount: ways <= Number.MAX_SAFE_INTEGER ? ways : null,
    });
  }
  // The list was made youngest first and sorting is stable: equals stay in that order.
  found.sort((a, b) => b.contribution - a.contribution);
  return {
    ancestors: found.slice(0, limit),
    count: found.length,
    accountedFor,
    complete: fish.length === all.length,
  };
}

/** Of sire, dam and all their ancestors those through which the two can meet, oldest first: the common ones and what descends from them. */
function lineages(p: Pedigree, sire: number, dam: number): Int32Array {
  const [ofSire, ofDam] = [sire, dam].map((own) => new Set([own, ...ancestors(p, own)])) as [
    Set<number>,
    Set<number>,
  ];
  const leading = new Set<number>();
  const union = Int32Array.from(new Set([...ofSire, ...ofDam])).sort();
  return union.filter((i) => {
    const leads =
      (ofSire.has(i) && ofDam.has(i)) ||
      leading.has(p.sire[i] ?? NO_PARENT) ||
      leading.has(p.dam[i] ?? NO_PARENT);
    if (leads) leading.add(i);
    return leads;
  });
}

interface Meetings {
  /** Probability with which the two lineages first meet at each fish. */
  readonly weight: Float64Array;
  /** In how many ways they can. */
  readonly ways: Float64Array;
}

function meetings(p: Pedigree, fish: Int32Array, sire: number, dam: number): Meetings {
  const place = new Map<number, number>();
  fish.forEach((index, k) => place.set(index, k));
  const placeOf = (index: number | undefined): number => place.get(index ?? NO_PARENT) ?? -1;
  const waiting = new Waiting(fish.length);
  const [first, second] = [placeOf(sire), placeOf(dam)];
  if (first >= 0 && second >= 0) waiting.start(first, second);
  for (let k = fish.length - 1; k >= 0; k--) {
    waiting.climb(k, placeOf(p.sire[fish[k] ?? 0]), placeOf(p.dam[fish[k] ?? 0]));
  }
  return waiting.met;
}

/** Two lineages on their way up, by the pair of fish that they stand on. */
class Waiting {
  readonly met: Meetings;
  /** Of each fish weight and ways, side by side, of the lineages that stand on it and on each older one. */
  private readonly rows: (Float64Array | undefined)[] = [];

  constructor(size: number) {
    this.met = { weight: new Float64Array(size), ways: new Float64Array(size) };
  }

  start(a: number, b: number): void {
    if (a === b) this.meet(a, 1, 1);
    else this.row(Math.max(a, b)).set([1, 1], 2 * Math.min(a, b));
  }

  /** Takes those that stand on fish `k` and an older one to its parents; -1 is a parent that leads nowhere. */
  climb(k: number, sire: number, dam: number): void {
    const row = this.rows[k];
    if (row === undefined) return;
    for (const parent of [sire, dam]) if (parent >= 0) this.step(row, k, parent);
    this.rows[k] = undefined;
  }

  private step(row: Float64Array, k: number, parent: number): void {
    const own = parent > 0 ? this.row(parent) : row;
    for (let j = 0; j < 2 * parent; j += 2) {
      const weight = row[j]!;
      if (weight === 0) continue;
      own[j] = own[j]! + weight / 2;
      own[j + 1] = own[j + 1]! + row[j + 1]!;
    }
    this.meet(parent, row[2 * parent]! / 2, row[2 * parent + 1]!);
    for (let j = parent + 1; j < k; j++) {
      const weight = row[2 * j]!;
      if (weight === 0) continue;
      const younger = this.row(j);
      younger[2 * parent] = younger[2 * parent]! + weight / 2;
      younger[2 * parent + 1] = younger[2 * parent + 1]! + row[2 * j + 1]!;
    }
  }

  private meet(at: number, weight: number, ways: number): void {
    this.met.weight[at] = this.met.weight[at]! + weight;
    this.met.ways[at] = this.met.ways[at]! + ways;
  }

  private row(k: number): Float64Array {
    return (this.rows[k] ??= new Float64Array(2 * k));
  }
}
