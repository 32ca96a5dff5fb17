import type { Rows } from './rows.js';

/** Place of every vertex within its row. */
export function placesOf(rows: Rows): Int32Array {
  const place = new Int32Array(rows.vertices.length);
  for (const row of rows.order) row.forEach((v, i) => (place[v] = i));
  return place;
}

/**
 * Crossings between all neighbouring rows, counted by inversions with a Fenwick tree
 * (W. Barth, P. Mutzel, M. Jünger 2004, J. Graph Algorithms Appl. 8:179-194; basis: from memory). O(edges · log width).
 */
export function countCrossings(rows: Rows, place: Int32Array): number {
  let total = 0;
  for (let r = 0; r + 1 < rows.order.length; r++) total += crossingsBelow(rows, place, r);
  return total;
}

function crossingsBelow(rows: Rows, place: Int32Array, r: number): number {
  const width = rows.order[r + 1]!.length;
  const tree = new Int32Array(width + 1);
  let seen = 0;
  let crossings = 0;
  for (const v of rows.order[r]!) {
    const ends = rows.down[v]!.map((w) => place[w]!);
    // All ends of one vertex are counted before any is entered: edges that share an end do not cross.
    for (const end of ends) crossings += seen - prefix(tree, end + 1);
    for (const end of ends) {
      for (let i = end + 1; i <= width; i += i & -i) tree[i]!++;
      seen++;
    }
  }
  return crossings;
}

function prefix(tree: Int32Array, count: number): number {
  let sum = 0;
  for (let i = count; i > 0; i -= i & -i) sum += tree[i]!;
  return sum;
}

/** Crossings that swapping neighbours (left, right) would add (negative: save), over sorted places of their ends. */
export function swapCost(left: readonly number[], right: readonly number[]): number {
  return crossingsWhenBefore(right, left) - crossingsWhenBefore(left, right);
}

function crossingsWhenBefore(first: readonly number[], second: readonly number[]): number {
  let crossings = 0;
  let j = 0;
  for (const end of first) {
    while (j < second.length && second[j]! < end) j++;
    crossings += j;
  }
  return crossings;
}
