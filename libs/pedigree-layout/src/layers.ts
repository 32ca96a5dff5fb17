import type { Families } from './families.js';

/**
 * A row for every node: offspring stand one row below the younger of their parents (longest path from a founder), so that every
 * sibship shares a row. Founders, and whole branches that only join the rest later, then slide down towards their first mates,
 * which shortens lines and puts mates side by side. Rows are numbered from 0 without gaps.
 *
 * Cost: O(nodes + matings) a round, three rounds.
 */
export function assignLayers(families: Families): Int32Array {
  const level = longestPaths(families);
  slideFounders(families, level);
  for (let round = 0; round < 3; round++) {
    if (!slideBranches(families, level)) break;
    slideFounders(families, level);
  }
  return closeGaps(level);
}

function matingLevel(families: Families, level: Int32Array, m: number): number {
  const mating = families.matings[m]!;
  return Math.max(
    mating.sire < 0 ? -1 : level[mating.sire]!,
    mating.dam < 0 ? -1 : level[mating.dam]!,
  );
}

function longestPaths(families: Families): Int32Array {
  const { nodes, matings, matingsOf } = families;
  const level = new Int32Array(nodes.length);
  const waiting = matings.map((mating) => (mating.sire < 0 ? 0 : 1) + (mating.dam < 0 ? 0 : 1));
  const ready: number[] = [];
  nodes.forEach((node, i) => {
    if (node.origin < 0) ready.push(i);
  });
  for (let head = 0; head < ready.length; head++) {
    for (const m of matingsOf[ready[head]!]!) {
      if (--waiting[m]! > 0) continue;
      const row = matingLevel(families, level, m) + 1;
      for (const child of matings[m]!.offspring) {
        level[child] = row;
        ready.push(child);
      }
    }
  }
  return level;
}

function slideFounders(families: Families, level: Int32Array): void {
  families.nodes.forEach((node, i) => {
    const matings = families.matingsOf[i]!;
    if (node.origin >= 0 || matings.length === 0) return;
    // Rows are fixed by the mates and young, so a founder may go as low as the row above its first young.
    const lowest = matings.map((m) => level[families.matings[m]!.offspring[0]!]! - 1);
    level[i] = lowest.reduce((a, b) => Math.min(a, b));
  });
}

function slideBranches(families: Families, level: Int32Array): boolean {
  let moved = false;
  const order = families.matings
    .map((_, m) => m)
    .sort((a, b) => matingLevel(families, level, b) - matingLevel(families, level, a) || a - b);
  for (const m of order) {
    const slack = sibshipSlack(families, level, m, new Set());
    if (slack <= 0 || slack === Number.POSITIVE_INFINITY) continue;
    const branch = followers(families, level, m, slack);
    if (branch.gain <= branch.loss) continue;
    for (const i of branch.nodes) level[i]! += slack;
    moved = true;
  }
  return moved;
}

/** Rows by which all young of a mating could drop before one of them passes its own mating; matings in `free` drop too. */
function sibshipSlack(
  families: Families,
  level: Int32Array,
  m: number,
  free: ReadonlySet<number>,
): number {
  let slack = Number.POSITIVE_INFINITY;
  for (const child of families.matings[m]!.offspring) {
    for (const own of families.matingsOf[child]!) {
      if (free.has(own)) continue;
      const row = level[families.matings[own]!.offspring[0]!]! - 1;
      slack = Math.min(slack, row - level[child]!);
    }
  }
  return slack;
}

interface Branch {
  readonly nodes: ReadonlySet<number>;
  /** Lines that get shorter and lines that get longer. */
  readonly gain: number;
  readonly loss: number;
}

function followers(families: Families, level: Int32Array, start: number, slack: number): Branch {
  const nodes = new Set<number>();
  const free = new Set<number>();
  const queue = [start];
  const queued = new Set(queue);
  let gain = 0;
  let loss = 0;
  for (let head = 0; head < queue.length; head++) {
    const m = queue[head]!;
    const mating = families.matings[m]!;
    for (const child of mating.offspring) {
      nodes.add(child);
      gain += families.matingsOf[child]!.filter((own) => !free.has(own)).length;
    }
    free.add(m);
    for (const parent of [mating.sire, mating.dam]) {
      if (parent < 0 || nodes.has(parent)) continue;
      const origin = families.nodes[parent]!.origin;
      if (origin < 0) {
        if (families.matingsOf[parent]!.every((own) => free.has(own))) nodes.add(parent);
        else loss++;
      } else if (queued.has(origin)) continue;
      else if (sibshipSlack(families, level, origin, free) >= slack) {
        queue.push(origin);
        queued.add(origin);
      } else loss++;
    }
  }
  return { nodes, gain, loss };
}

function closeGaps(level: Int32Array): Int32Array {
  const used = [...new Set(level)].sort((a, b) => a - b);
  const row = new Map(used.map((value, i) => [value, i] as const));
  return level.map((value) => row.get(value)!);
}
