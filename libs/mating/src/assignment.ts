import { MatingError } from './mating-error.js';

/** A choice of cells of a cost table, no two in one row or one column. */
export interface Assignment {
  /** Chosen [row, column] pairs, by row. */
  readonly cells: readonly (readonly [number, number])[];
  readonly total: number;
}

/**
 * Chooses `wanted` cells of a rows x columns cost table, at most one a row and one a column, with the least total cost.
 *
 * Successive shortest augmenting paths with potentials: the Hungarian method (Kuhn 1955; the row-wise augmenting form
 * follows Jonker & Volgenant 1987, both from memory; checked here against exhaustive choice). Every augmentation starts
 * from all free rows at once, so after k of them the choice is the cheapest with k cells. A cost of `Infinity` forbids a
 * cell; fewer cells than wanted come back when no more can be placed.
 *
 * @param cost Row-major, `rows * columns` figures, none NaN or minus infinity.
 *
 * Cost: time in wanted x rows x columns, memory in rows + columns beyond the table. The same table always gives the same choice.
 *
 * Throws `MatingError` with code `MATING_BAD_SETTING` when the table's length or a figure does not fit.
 */
export function assignCheapest(
  cost: Float64Array,
  rows: number,
  columns: number,
  wanted = Math.min(rows, columns),
): Assignment {
  checkTable(cost, rows, columns);
  const state = startingState(cost, rows, columns);
  for (let placed = 0; placed < Math.min(wanted, rows, columns); placed++) {
    if (!augment(cost, state)) break;
  }
  const cells: [number, number][] = [];
  let total = 0;
  state.columnOf.forEach((column, row) => {
    if (column < 0) return;
    cells.push([row, column]);
    total += cost[row * columns + column] ?? 0;
  });
  return { cells, total };
}

interface AssignmentState {
  readonly rows: number;
  readonly columns: number;
  /** Column given to a row, or -1. */
  readonly columnOf: Int32Array;
  /** Row given to a column, or -1. */
  readonly rowOf: Int32Array;
  /** Length of the shortest path to each row, each column and the end: with these no reduced cost is negative. */
  readonly rowPotential: Float64Array;
  readonly columnPotential: Float64Array;
  endPotential: number;
}

function startingState(cost: Float64Array, rows: number, columns: number): AssignmentState {
  const columnPotential = new Float64Array(columns).fill(Infinity);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const value = cost[row * columns + column] ?? Infinity;
      if (value < (columnPotential[column] ?? Infinity)) columnPotential[column] = value;
    }
  }
  const least = columnPotential.reduce((lowest, value) => Math.min(lowest, value), Infinity);
  return {
    rows,
    columns,
    columnOf: new Int32Array(rows).fill(-1),
    rowOf: new Int32Array(columns).fill(-1),
    rowPotential: new Float64Array(rows),
    // A column forbidden throughout needs some finite figure; it is never entered.
    columnPotential: columnPotential.map((value) => (value === Infinity ? 0 : value)),
    endPotential: least === Infinity ? 0 : least,
  };
}

/** Shortest reduced distances found by one search, up to the nearest free column. */
interface Search {
  readonly rowDistance: Float64Array;
  readonly columnDistance: Float64Array;
  /** Row from which each column was reached. */
  readonly cameFrom: Int32Array;
  /** The free column where the cheapest path ends, or -1, and the path's reduced length. */
  readonly end: number;
  readonly length: number;
}

/** Lengthens the choice by one cell along the cheapest alternating path; `false` when there is none. */
function augment(cost: Float64Array, state: AssignmentState): boolean {
  const found = searchCheapestPath(cost, state);
  if (found.end < 0) return false;
  const { rowPotential, columnPotential, columnOf, rowOf } = state;
  found.rowDistance.forEach((distance, row) => {
    rowPotential[row] = (rowPotential[row] ?? 0) + Math.min(distance, found.length);
  });
  found.columnDistance.forEach((distance, column) => {
    columnPotential[column] = (columnPotential[column] ?? 0) + Math.min(distance, found.length);
  });
  state.endPotential += found.length;
  for (let column = found.end; column >= 0;) {
    const row = found.cameFrom[column] ?? -1;
    const previous = columnOf[row] ?? -1;
    columnOf[row] = column;
    rowOf[column] = row;
    column = previous;
  }
  return true;
}

function searchCheapestPath(cost: Float64Array, state: AssignmentState): Search {
  const { rows, columns, columnOf, rowOf, rowPotential, columnPotential } = state;
  const rowDistance = new Float64Array(rows).fill(Infinity);
  const columnDistance = new Float64Array(columns).fill(Infinity);
  const cameFrom = new Int32Array(columns).fill(-1);
  const settled = new Uint8Array(columns);
  const leave = (row: number, distance: number): void => {
    rowDistance[row] = distance;
    const base = distance + (rowPotential[row] ?? 0);
    for (let column = 0; column < columns; column++) {
      if (settled[column] === 1) continue;
      const reached =
        base + (cost[row * columns + column] ?? Infinity) - (columnPotential[column] ?? 0);
      if (reached < (columnDistance[column] ?? Infinity)) {
        columnDistance[column] = reached;
        cameFrom[column] = row;
      }
    }
  };
  for (let row = 0; row < rows; row++) if (columnOf[row] === -1) leave(row, 0);
  let end = -1;
  let length = Infinity;
  for (;;) {
    const column = nearestUnsettled(columnDistance, settled);
    const distance = column < 0 ? Infinity : (columnDistance[column] ?? Infinity);
    if (distance >= length || column < 0) break;
    settled[column] = 1;
    const owner = rowOf[column] ?? -1;
    if (owner >= 0) {
      // A cell already chosen has reduced cost 0, so its row lies at its column's distance.
      leave(owner, distance);
      continue;
    }
    const finish = distance + (columnPotential[column] ?? 0) - state.endPotential;
    if (finish < length) [end, length] = [column, finish];
  }
  return { rowDistance, columnDistance, cameFrom, end, length };
}

function nearestUnsettled(distance: Float64Array, settled: Uint8Array): number {
  let nearest = -1;
  let least = Infinity;
  distance.forEach((value, column) => {
    if (settled[column] === 0 && value < least) [nearest, least] = [column, value];
  });
  return nearest;
}

/**
 * The same choice by trying every one: a check on {@link assignCheapest} and the rule for small tables, where of equally
 * cheap choices the first in row and column order is taken.
 *
 * Cost: grows as the factorial of the table's smaller side; tables with more than 8 rows and columns are refused.
 */
export function assignExhaustively(
  cost: Float64Array,
  rows: number,
  columns: number,
  wanted = Math.min(rows, columns),
): Assignment {
  checkTable(cost, rows, columns);
  if (Math.max(rows, columns) > 8) {
    throw new MatingError(
      'MATING_BAD_SETTING',
      'rows',
      'Trying every choice is for tables of up to 8 x 8.',
    );
  }
  let best: Assignment = { cells: [], total: 0 };
  const chosen: [number, number][] = [];
  const used = new Set<number>();
  const visit = (row: number, total: number): void => {
    const more = chosen.length - best.cells.length;
    if (chosen.length <= wanted && (more > 0 || (more === 0 && total < best.total - 1e-12))) {
      best = { cells: [...chosen], total };
    }
    if (row === rows || chosen.length === wanted) return;
    for (let column = 0; column < columns; column++) {
      const value = cost[row * columns + column] ?? Infinity;
      if (used.has(column) || value === Infinity) continue;
      used.add(column);
      chosen.push([row, column]);
      visit(row + 1, total + value);
      chosen.pop();
      used.delete(column);
    }
    visit(row + 1, total);
  };
  visit(0, 0);
  return best;
}

function checkTable(cost: Float64Array, rows: number, columns: number): void {
  if (cost.length !== rows * columns) {
    const message = `A table of ${String(rows)} x ${String(columns)} needs ${String(rows * columns)} costs, not ${String(cost.length)}.`;
    throw new MatingError('MATING_BAD_SETTING', 'cost', message);
  }
  if (cost.some((value) => Number.isNaN(value) || value === -Infinity)) {
    throw new MatingError(
      'MATING_BAD_SETTING',
      'cost',
      'A cost must be a number, or Infinity to forbid the cell.',
    );
  }
}
