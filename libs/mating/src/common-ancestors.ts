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
  /** `false` when the pair has more than `mostFish` ancestors and the oldest were left out. */
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
 * @param mostFish Ancestors of the pair to look at, youngest first. Leaving out the oldest keeps the other parts exact.
 *
 * Cost: at most the square of the pair's number of ancestors in time and in memory.
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

/** Sire, dam and all their ancestors, oldest first. */
function lineages(p: Pedigree, sire: number, dam: number): Int32Array {
  const union = new Set<number>([sire, dam]);
  for (const i of ancestors(p, sire)) union.add(i);
  for (const i of ancestors(p, dam)) union.add(i);
  return Int32Array.from(union).sort();
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
  const met = { weight: new Float64Array(fish.length), ways: new Float64Array(fish.length) };
  // waiting[k]: weight and ways, side by side, of the lineages standing on fish k and on each older fish.
  const waiting: (Float64Array | undefined)[] = [];
  const arrive = (a: number | undefined, b: number | undefined, weight: number, ways: number) => {
    if (a === undefined || b === undefined) return;
    if (a === b) {
      met.weight[a] = (met.weight[a] ?? 0) + weight;
      met.ways[a] = (met.ways[a] ?? 0) + ways;
      return;
    }
    const [younger, older] = a > b ? [a, b] : [b, a];
    const row = (waiting[younger] ??= new Float64Array(2 * younger));
    row[2 * older] = (row[2 * older] ?? 0) + weight;
    row[2 * older + 1] = (row[2 * older + 1] ?? 0) + ways;
  };
  arrive(place.get(sire), place.get(dam), 1, 1);
  for (let k = fish.length - 1; k >= 0; k--) {
    const row = waiting[k];
    if (!row) continue;
    const parents = [p.sire[fish[k] ?? 0] ?? NO_PARENT, p.dam[fish[k] ?? 0] ?? NO_PARENT].map((i) =>
      place.get(i),
    );
    for (let j = 0; j < k; j++) {
      const weight = row[2 * j] ?? 0;
      if (weight === 0) continue;
      for (const parent of parents) arrive(parent, j, weight / 2, row[2 * j + 1] ?? 0);
    }
    waiting[k] = undefined;
  }
  return met;
}
