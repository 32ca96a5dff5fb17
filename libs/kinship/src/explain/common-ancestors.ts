import type { PairLattice } from './pair-lattice.js';

/** What one common ancestor adds to the inbreeding coefficient of a brood, over all paths that turn at it. */
export interface CommonAncestor {
  readonly ancestor: number;
  /**
   * The founder that the paths go on from, where they turn at a pair of founders given as related; `null` where they turn at
   * `ancestor` itself.
   */
  readonly otherFounder: number | null;
  /** F of the ancestor itself. */
  readonly inbreeding: number;
  /** Paths that turn here; `null` when there are more than 2^53. */
  readonly pathCount: number | null;
  /** Sum of the contributions of those paths. */
  readonly contribution: number;
  /** Steps (sire's side and dam's side together) of the shortest and of the average path, paths weighted by what they add. */
  readonly shortestSteps: number;
  readonly meanSteps: number;
}

/** Number of ways up from each state to an end; exact up to 2^53. */
export function countWays(lattice: PairLattice, ends: Float64Array): Float64Array {
  const ways = new Float64Array(lattice.size);
  for (const state of lattice.upwards) {
    if (ends[state]! > 0) {
      ways[state] = 1;
      continue;
    }
    const bySire = lattice.bySire[state]!;
    const byDam = lattice.byDam[state]!;
    ways[state] = (bySire < 0 ? 0 : ways[bySire]!) + (byDam < 0 ? 0 : ways[byDam]!);
  }
  return ways;
}

/** A count that is exact, or `null` when it has outgrown what a double can count. */
export function exactCount(count: number): number | null {
  return count <= Number.MAX_SAFE_INTEGER ? count : null;
}

/**
 * Sums the paths by the ancestor they turn at, without listing them: probability, number and steps of the ways from the start
 * are carried down the lattice, so the cost is that of its states, however many paths they make.
 */
export function sumByAncestor(
  lattice: PairLattice,
  inbreeding: Float64Array,
  ends: Float64Array,
): CommonAncestor[] {
  const weight = new Float64Array(lattice.size);
  const ways = new Float64Array(lattice.size);
  const weightedSteps = new Float64Array(lattice.size);
  const shortest = new Float64Array(lattice.size).fill(Infinity);
  const found: CommonAncestor[] = [];
  if (lattice.size === 0) return found;
  weight[0] = 1;
  ways[0] = 1;
  shortest[0] = 0;
  for (let k = lattice.size - 1; k >= 0; k--) {
    const state = lattice.upwards[k]!;
    if (ends[state]! > 0) {
      const ancestor = lattice.younger[state]!;
      const other = lattice.older[state]!;
      found.push({
        ancestor,
        otherFounder: other === ancestor ? null : other,
        inbreeding: inbreeding[ancestor]!,
        pathCount: exactCount(ways[state]!),
        contribution: weight[state]! * ends[state]!,
        shortestSteps: shortest[state]!,
        meanSteps: weight[state]! > 0 ? weightedSteps[state]! / weight[state]! : shortest[state]!,
      });
      continue;
    }
    for (const next of [lattice.bySire[state]!, lattice.byDam[state]!]) {
      if (next < 0) continue;
      weight[next]! += weight[state]! / 2;
      weightedSteps[next]! += (weightedSteps[state]! + weight[state]!) / 2;
      ways[next]! += ways[state]!;
      shortest[next] = Math.min(shortest[next]!, shortest[state]! + 1);
    }
  }
  return found.sort((a, b) => b.contribution - a.contribution || b.ancestor - a.ancestor);
}
