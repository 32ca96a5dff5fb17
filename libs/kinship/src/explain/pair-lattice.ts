import { NO_PARENT, type Pedigree } from '@linewright/pedigree';
import type { FounderRelationship } from '../founder-relationship.js';

/** Marks a way up that leads to no common ancestor. */
export const DEAD_END = -1;
/** Marks a way up that was not explored because the budget of states ran out. */
export const UNEXPLORED = -2;

/**
 * Every pair of fish that two lines of descent, climbed together from a sire and a dam, can stand on.
 *
 * The rule of climbing: always step up from the younger (higher index) of the two. Parents have lower indices, so when both
 * lines would pass through one fish they are bound to stand on it together; they stop there, at the path's common ancestor.
 * Hence every way through this lattice from the start to a state (A, A) is one of Wright's paths, each exactly once, and no
 * fish stands twice on it. Founders given as related have the lowest indices, so that a way can also end on two of them.
 *
 * A state is an unordered pair; `older` is equal to `younger` where the lines meet. Arrays have one entry a state; state 0 is
 * the start.
 */
export interface PairLattice {
  readonly size: number;
  readonly younger: Int32Array;
  readonly older: Int32Array;
  /** State after stepping to the younger fish's sire: a state, {@link DEAD_END} or {@link UNEXPLORED}. */
  readonly bySire: Int32Array;
  readonly byDam: Int32Array;
  /** States with those that follow from a state before it. */
  readonly upwards: Int32Array;
  /** False when the budget ran out; then only the nearer part, complete to `horizon` steps, is here. */
  readonly complete: boolean;
  readonly horizon: number;
}

/**
 * Explores the lattice of a pair, nearest states first.
 *
 * @param useful marks fish that have a common ancestor of the pair at or above them; others are dead ends.
 * @param budget most states to explore.
 * @param beyond go on from a meeting (A, A) to A's parents, as `bySire`: where the lines met in different genes of A.
 * Cost: linear in the states found, at most (ancestors of the sire) x (ancestors of the dam).
 */
export function explorePair(
  pedigree: Pedigree,
  first: number,
  second: number,
  useful: Uint8Array,
  budget: number,
  beyond = false,
): PairLattice {
  const younger: number[] = [];
  const older: number[] = [];
  const bySire: number[] = [];
  const byDam: number[] = [];
  const known = new PairIndex(pedigree.size);
  let complete = true;
  const find = (a: number, b: number): number => {
    if (a === NO_PARENT || b === NO_PARENT || useful[a] === 0) return DEAD_END;
    const high = a > b ? a : b;
    const low = a > b ? b : a;
    const state = known.find(high, low);
    if (state >= 0) return state;
    if (younger.length >= budget) {
      complete = false;
      return UNEXPLORED;
    }
    known.set(high, low, younger.length);
    older.push(low);
    bySire.push(DEAD_END);
    byDam.push(DEAD_END);
    return younger.push(high) - 1;
  };
  if (useful[first] === 1 && useful[second] === 1) find(first, second);
  let steps = 0;
  let levelEnd = younger.length;
  let horizon = 0;
  for (let state = 0; state < younger.length; state++) {
    if (state === levelEnd) {
      steps++;
      levelEnd = younger.length;
    }
    const high = younger[state]!;
    const low = older[state]!;
    if (high === low) {
      if (beyond) bySire[state] = find(pedigree.sire[high]!, pedigree.dam[high]!);
      continue;
    }
    bySire[state] = find(pedigree.sire[high]!, low);
    byDam[state] = find(pedigree.dam[high]!, low);
    if (complete) horizon = steps + 1;
  }
  return {
    size: younger.length,
    younger: Int32Array.from(younger),
    older: Int32Array.from(older),
    bySire: Int32Array.from(bySire),
    byDam: Int32Array.from(byDam),
    upwards: byIndexSum(younger, older, pedigree.size),
    complete,
    horizon,
  };
}

/**
 * What a line of descent on either fish is worth where the two end: their coancestry where they meet on one fish, (1 + F) / 2, or
 * stand on two founders given as related; 0 at all other states, which lead on.
 */
export function coancestryAtEnds(
  { size, younger, older }: Pick<PairLattice, 'size' | 'younger' | 'older'>,
  inbreeding: Float64Array,
  founders: FounderRelationship | undefined,
): Float64Array {
  const ends = new Float64Array(size);
  const given = founders?.founders.length ?? 0;
  for (let state = 0; state < size; state++) {
    const high = younger[state]!;
    if (high === older[state]!) ends[state] = (1 + inbreeding[high]!) / 2;
    else if (high < given) ends[state] = founders!.coancestry[high * given + older[state]!]!;
  }
  return ends;
}

/** Sorts states by younger + older: every step up lowers that sum, so states that follow come first. */
function byIndexSum(
  younger: readonly number[],
  older: readonly number[],
  fish: number,
): Int32Array {
  const starts = new Int32Array(2 * fish + 1);
  for (let state = 0; state < younger.length; state++) {
    starts[younger[state]! + older[state]! + 1]!++;
  }
  for (let sum = 1; sum < starts.length; sum++) starts[sum] = starts[sum]! + starts[sum - 1]!;
  const order = new Int32Array(younger.length);
  for (let state = 0; state < younger.length; state++) {
    const sum = younger[state]! + older[state]!;
    order[starts[sum]!++] = state;
  }
  return order;
}

/** Up to this many fish a table of all pairs is kept: 32 MB at most. */
const LARGEST_TABLE = 4000;

/** Pair of fish to state: a table while that stays small, else a map. */
class PairIndex {
  readonly #table: Int32Array | undefined;
  readonly #map = new Map<number, number>();
  readonly #fish: number;

  constructor(fish: number) {
    this.#fish = fish;
    if (fish <= LARGEST_TABLE) this.#table = new Int32Array((fish * (fish + 1)) / 2);
  }

  /** The pair's state, or -1. */
  find(high: number, low: number): number {
    if (this.#table !== undefined) return this.#table[(high * (high + 1)) / 2 + low]! - 1;
    return this.#map.get(high * this.#fish + low) ?? -1;
  }

  set(high: number, low: number, state: number): void {
    if (this.#table !== undefined) this.#table[(high * (high + 1)) / 2 + low] = state + 1;
    else this.#map.set(high * this.#fish + low, state);
  }
}
