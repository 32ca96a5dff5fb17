import type { Families } from './families.js';
import type { Rows } from './rows.js';

export interface Spacing {
  /** Extent of a fish's box across the row. */
  readonly nodeSize: number;
  /** Clear space between full sibs, between others, and around a passing line. */
  readonly siblingGap: number;
  readonly familyGap: number;
  readonly lineGap: number;
}

const ROUNDS = 60;
const PASS_WEIGHT = 8;
const MATE_WEIGHT = 2;

/**
 * Places across the rows: minimises the weighted squares of the sideways distances along all lines, with the order and the least
 * spaces kept, by solving one row after another exactly (pool adjacent violators: Ayer et al. 1955, Ann. Math. Stat. 26:641-647;
 * basis: from memory), downwards and upwards in turn. Lines that pass through rows weigh most, so that they run straight.
 *
 * Cost: O(rounds · edges).
 */
export function placeAcross(rows: Rows, families: Families, spacing: Spacing): Float64Array {
  const across = new Float64Array(rows.vertices.length);
  const offsets = rows.order.map((row) => rowOffsets(row, rows, families, spacing));
  rows.order.forEach((row, r) => {
    const middle = (offsets[r]!.at(-1) ?? 0) / 2;
    row.forEach((v, i) => (across[v] = offsets[r]![i]! - middle));
  });
  for (let round = 0; round < ROUNDS; round++) {
    const downwards = round % 2 === 0;
    // The first rounds look one way only: that moves whole branches, which the two-sided average is slow to do.
    const side = round < 8 ? (downwards ? 'up' : 'down') : 'both';
    for (let step = 0; step < rows.order.length; step++) {
      const r = downwards ? step : rows.order.length - 1 - step;
      settleRow(rows, r, offsets[r]!, across, side);
    }
  }
  return across;
}

function rowOffsets(
  row: readonly number[],
  rows: Rows,
  families: Families,
  spacing: Spacing,
): number[] {
  const offsets: number[] = [];
  let at = 0;
  row.forEach((v, i) => {
    if (i > 0) at += leastDistance(row[i - 1]!, v, rows, families, spacing);
    offsets.push(at);
  });
  return offsets;
}

function leastDistance(
  a: number,
  b: number,
  rows: Rows,
  families: Families,
  spacing: Spacing,
): number {
  const left = rows.vertices[a]!;
  const right = rows.vertices[b]!;
  const size = (kind: string): number => (kind === 'node' ? spacing.nodeSize / 2 : 0);
  const sizes = size(left.kind) + size(right.kind);
  if (left.kind !== 'node' || right.kind !== 'node') return sizes + spacing.lineGap;
  const sibs =
    families.nodes[left.ref]!.origin >= 0 &&
    families.nodes[left.ref]!.origin === families.nodes[right.ref]!.origin;
  const mates = families.matingsOf[left.ref]!.some((m) =>
    families.matingsOf[right.ref]!.includes(m),
  );
  return sizes + (sibs || mates ? spacing.siblingGap : spacing.familyGap);
}

function edgeWeight(rows: Rows, v: number, w: number): number {
  const a = rows.vertices[v]!.kind;
  const b = rows.vertices[w]!.kind;
  if (a === 'pass' && b === 'pass') return PASS_WEIGHT;
  if (a === 'pass' || b === 'pass') return MATE_WEIGHT;
  const parentSide = rows.vertices[v]!.row < rows.vertices[w]!.row ? a : b;
  return parentSide === 'node' ? MATE_WEIGHT : 1;
}

function settleRow(
  rows: Rows,
  r: number,
  offsets: readonly number[],
  across: Float64Array,
  side: 'up' | 'down' | 'both',
): void {
  const row = rows.order[r]!;
  const wanted = new Float64Array(row.length);
  const weights = new Float64Array(row.length);
  row.forEach((v, i) => {
    let sum = 0;
    let weight = 0;
    const consider = (around: readonly number[]): void => {
      for (const w of around) {
        const share = edgeWeight(rows, v, w);
        sum += share * across[w]!;
        weight += share;
      }
    };
    if (side !== 'down') consider(rows.up[v]!);
    if (side !== 'up') consider(rows.down[v]!);
    // Without a neighbour on that side a vertex only keeps where it is, lightly.
    weights[i] = weight > 0 ? weight : 0.05;
    wanted[i] = (weight > 0 ? sum / weight : across[v]!) - offsets[i]!;
  });
  const settled = poolAdjacent(wanted, weights);
  row.forEach((v, i) => (across[v] = settled[i]! + offsets[i]!));
}

/** The non-decreasing sequence nearest to `wanted` in weighted least squares. */
export function poolAdjacent(wanted: Float64Array, weights: Float64Array): Float64Array {
  const mean: number[] = [];
  const weight: number[] = [];
  const count: number[] = [];
  for (let i = 0; i < wanted.length; i++) {
    mean.push(wanted[i]!);
    weight.push(weights[i]!);
    count.push(1);
    while (mean.length > 1 && mean.at(-2)! > mean.at(-1)!) {
      const m = mean.pop()!;
      const w = weight.pop()!;
      const c = count.pop()!;
      const k = mean.length - 1;
      mean[k] = (mean[k]! * weight[k]! + m * w) / (weight[k]! + w);
      weight[k]! += w;
      count[k]! += c;
    }
  }
  const out = new Float64Array(wanted.length);
  let at = 0;
  mean.forEach((m, k) => {
    out.fill(m, at, at + count[k]!);
    at += count[k]!;
  });
  return out;
}
