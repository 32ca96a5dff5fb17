import type { LinearMatrix } from './linear-matrix.js';
import { minimumDegreeOrder, type Graph } from './minimum-degree.js';

/**
 * Who is tied to whom in a matrix. With `unitOf`, equations of one unit (a fish's traits) count as one node, units numbered from 0.
 */
export function graphOf(
  { size, start, row }: Pick<LinearMatrix, 'size' | 'start' | 'row'>,
  unitOf?: Int32Array,
  units = size,
): Graph {
  const unit = (i: number): number => (unitOf === undefined ? i : unitOf[i]!);
  const count = new Int32Array(units + 1);
  for (let j = 0; j < size; j++) {
    for (let k = start[j]!; k < start[j + 1]!; k++) {
      const [a, b] = [unit(row[k]!), unit(j)];
      if (a === b) continue;
      count[a + 1]!++;
      count[b + 1]!++;
    }
  }
  for (let u = 0; u < units; u++) count[u + 1]! += count[u]!;
  const next = count.slice();
  const all = new Int32Array(count[units]!);
  for (let j = 0; j < size; j++) {
    for (let k = start[j]!; k < start[j + 1]!; k++) {
      const [a, b] = [unit(row[k]!), unit(j)];
      if (a === b) continue;
      all[next[a]!++] = b;
      all[next[b]!++] = a;
    }
  }
  return unitOf === undefined
    ? { size: units, start: count, neighbour: all }
    : single(units, count, all);
}

/** The same graph with each neighbour named once. */
function single(size: number, start: Int32Array, neighbour: Int32Array): Graph {
  const mark = new Int32Array(size).fill(-1);
  const begins = new Int32Array(size + 1);
  let count = 0;
  for (let u = 0; u < size; u++) {
    for (let k = start[u]!; k < start[u + 1]!; k++) {
      const other = neighbour[k]!;
      if (mark[other] === u) continue;
      mark[other] = u;
      neighbour[count++] = other;
    }
    begins[u + 1] = count;
  }
  return { size, start: begins, neighbour: neighbour.slice(0, count) };
}

/** An order with little fill for equations that come in units; null when the factor would exceed `fillLimit` entries. */
export function orderByUnits(
  matrix: Pick<LinearMatrix, 'size' | 'start' | 'row'>,
  unitOf: Int32Array,
  units: number,
  fillLimit = Infinity,
): Int32Array | null {
  const order = minimumDegreeOrder(graphOf(matrix, unitOf, units), fillLimit);
  if (order === null) return null;
  const start = new Int32Array(units + 1);
  for (const unit of unitOf) start[unit + 1]!++;
  for (let u = 0; u < units; u++) start[u + 1]! += start[u]!;
  const members = new Int32Array(matrix.size);
  for (let i = 0; i < matrix.size; i++) members[start[unitOf[i]!]!++] = i;
  const sizes = new Int32Array(units);
  for (const unit of unitOf) sizes[unit]!++;
  const equations = new Int32Array(matrix.size);
  let at = 0;
  for (const unit of order) {
    // Filling moved each start to the end of its unit.
    for (let k = start[unit]! - sizes[unit]!; k < start[unit]!; k++) equations[at++] = members[k]!;
  }
  return equations;
}
