/** Result of counting generations from the founders down. */
export interface GenerationCount {
  /** Longest path to a founder; -1 for rows that stand on a cycle or below one. */
  readonly depth: Int32Array;
  readonly deepest: number;
  /** How many rows got a depth. */
  readonly placed: number;
}

/** True when every parent stands above its young. */
export function parentsComeFirst(sire: Int32Array, dam: Int32Array): boolean {
  for (let row = 0; row < sire.length; row++) {
    if (sire[row]! >= row || dam[row]! >= row) return false;
  }
  return true;
}

/**
 * Longest path of every row to a founder, for rows in any order, by counting parents not yet placed (Kahn 1962,
 * Commun ACM 5:558-562). No recursion. Negative parents count as unknown. Cost: linear in rows.
 */
export function countGenerations(sire: Int32Array, dam: Int32Array): GenerationCount {
  const size = sire.length;
  const first = new Int32Array(size + 1);
  for (let row = 0; row < size; row++) {
    if (sire[row]! >= 0) first[sire[row]! + 1]!++;
    if (dam[row]! >= 0) first[dam[row]! + 1]!++;
  }
  for (let row = 0; row < size; row++) first[row + 1]! += first[row]!;
  const young = new Int32Array(first[size]!);
  const next = first.slice(0, size);
  const waiting = new Uint8Array(size);
  const queue = new Int32Array(size);
  const depth = new Int32Array(size).fill(-1);
  let tail = 0;
  for (let row = 0; row < size; row++) {
    if (sire[row]! >= 0) {
      young[next[sire[row]!]!++] = row;
      waiting[row]!++;
    }
    if (dam[row]! >= 0) {
      young[next[dam[row]!]!++] = row;
      waiting[row]!++;
    }
    if (waiting[row] === 0) {
      depth[row] = 0;
      queue[tail++] = row;
    }
  }
  let deepest = tail > 0 ? 0 : -1;
  for (let head = 0; head < tail; head++) {
    const parent = queue[head]!;
    const below = depth[parent]! + 1;
    for (let k = first[parent]!; k < first[parent + 1]!; k++) {
      const row = young[k]!;
      // First in, first out: the last parent to arrive is the deepest one.
      if (--waiting[row]! === 0) {
        depth[row] = below;
        if (below > deepest) deepest = below;
        queue[tail++] = row;
      }
    }
  }
  return { depth, deepest, placed: tail };
}

/** Rows sorted by depth, rows of one depth in their given order. A counting sort. */
export function orderByDepth(depth: Int32Array, deepest: number): Int32Array {
  const start = new Int32Array(deepest + 2);
  for (let row = 0; row < depth.length; row++) start[depth[row]! + 1]!++;
  for (let level = 0; level <= deepest; level++) start[level + 1]! += start[level]!;
  const order = new Int32Array(depth.length);
  for (let row = 0; row < depth.length; row++) order[start[depth[row]!]!++] = row;
  return order;
}

/** Rows that all cycles reported may hold together, so that a hopeless file does not fill the memory. */
const MOST_CYCLE_ROWS = 1_000_000;

/**
 * Cycles among the rows that counting could not place: one through every row at which a walk from young to parents comes
 * back to itself, so that each knot shows at least once. Each runs from young to old and ends before it would repeat.
 * No recursion. Cost: linear in rows and in the cycles' lengths.
 */
export function findCycles(sire: Int32Array, dam: Int32Array, depth: Int32Array): number[][] {
  const size = depth.length;
  // 0: not yet entered; 1, 2: on the walk, with its sire or dam to be looked at next; 3: left.
  const state = new Uint8Array(size);
  const placeOnWalk = new Int32Array(size);
  const shown = new Uint8Array(size);
  const cycles: number[][] = [];
  let rowsShown = 0;
  for (let start = 0; start < size; start++) {
    if (depth[start]! >= 0 || state[start] !== 0) continue;
    const walk = [start];
    while (walk.length > 0) {
      const row = walk.at(-1)!;
      if (state[row] === 0) placeOnWalk[row] = walk.length - 1;
      if (++state[row]! > 2) {
        walk.pop();
        continue;
      }
      const parent = state[row] === 1 ? sire[row]! : dam[row]!;
      if (parent < 0 || depth[parent]! >= 0) continue;
      if (state[parent] === 0) walk.push(parent);
      else if (state[parent]! < 3 && shown[parent] === 0) {
        const cycle = walk.slice(placeOnWalk[parent]);
        rowsShown += cycle.length;
        if (rowsShown > MOST_CYCLE_ROWS && cycles.length > 0) return cycles;
        shown[parent] = 1;
        cycles.push(cycle);
      }
    }
  }
  return cycles;
}
