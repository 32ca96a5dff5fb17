import type { ModelData } from 'highs';
import { countsOf, type PairRules } from './swaps.js';

/** Squares are written a thousand times as large, so that the solver's rounding stays below 1e-9 of them. */
export const SCALE = 1000;

/** Rows before those of the candidates: how many pairs there are, and the limit on n'Kn. */
export const FIRST_FISH_ROW = 2;

export interface PairLayout {
  /** The model without its cells. */
  readonly data: ModelData;
  /** First columns: counts of the kinds, f'n, figures for (f'n)², cells. */
  readonly counts: number;
  readonly roots: number;
  readonly squares: number;
  readonly cells: number;
  /** What n'Kn costs, a column. */
  readonly kinship: Float64Array;
  /** All columns before the cells, for whole pairs. */
  readonly valuesOf: (chosen: readonly number[]) => Float64Array;
}

/**
 * Columns: for each candidate one a brood that it may have, the first before the second; the same for each kind; the count of each kind;
 * for each square f'n and (f'n)²; then the cells. Rows: how many pairs, the limit on n'Kn, what each candidate has, each kind (by its
 * candidates, and by its broods), what f'n is.
 */
export function pairLayout(rules: PairRules, pairs: number, far: number): PairLayout {
  const { size, ownOfKind, factors } = rules.parts;
  const kinds = ownOfKind.length;
  const kindRow = FIRST_FISH_ROW + size;
  const rootRow = kindRow + 2 * kinds;
  const builder = new Columns();
  const units = unitsOf(rules, pairs);
  for (const { inRows, least, square } of units) {
    builder.add([1, SCALE * square], ...inRows);
    builder.bounds(least, 1, square);
  }
  const counts = builder.size;
  for (let kind = 0; kind < kinds; kind++) {
    const inRoots = factors.map((factor, k) => [rootRow + k, -factor[kind]!] as const);
    builder.add([kindRow + kind, -1], [kindRow + kinds + kind, -1], ...inRoots);
    builder.bounds(0, 2 * pairs, 0);
  }
  const roots = builder.size;
  factors.forEach((_, k) => {
    builder.add([rootRow + k, 1]);
    builder.bounds(-far, far, 0);
  });
  const squares = builder.size;
  factors.forEach(() => {
    builder.add([1, SCALE]);
    builder.bounds(0, far, 1);
  });
  const rows = rootRow + factors.length;
  const rowLower = new Float64Array(rows);
  const rowUpper = new Float64Array(rows);
  rowLower.set([pairs, -far]);
  rowUpper.set([pairs, rules.most === Infinity ? far : SCALE * rules.most]);
  const places = { counts, roots, squares, cells: builder.size };
  const { data, cost } = builder.model(rowLower, rowUpper);
  const valuesOf = (chosen: readonly number[]) => valuesFor(rules, units, places, chosen);
  return { data, ...places, kinship: cost, valuesOf };
}

/** One brood that a candidate or a kind may have: a column of 0 or 1. */
interface Unit {
  readonly of: number;
  readonly step: number;
  readonly isKind: boolean;
  /** What it adds to the own part of n'Kn. */
  readonly square: number;
  readonly least: number;
  readonly inRows: readonly (readonly [row: number, value: number])[];
}

/** The broods of each candidate, then those of each kind. */
function unitsOf({ parts, mostOf, least }: PairRules, pairs: number): Unit[] {
  const { size, kindOf, ownOfKind, own } = parts;
  const kindRow = FIRST_FISH_ROW + size;
  const stepsOf = mostOf.map((each) => Math.min(each, pairs));
  const stepsOfKind = new Int32Array(ownOfKind.length);
  kindOf.forEach((kind, fish) => (stepsOfKind[kind]! += stepsOf[fish]!));
  const units: Unit[] = [];
  own.forEach((each, fish) => {
    const inRows = [[FIRST_FISH_ROW + fish, -1] as const, [kindRow + kindOf[fish]!, 1] as const];
    for (let step = 0; step < stepsOf[fish]!; step++) {
      const square = each * (2 * step + 1);
      const needed = step < least[fish]! ? 1 : 0;
      units.push({ of: fish, step, isKind: false, square, least: needed, inRows });
    }
  });
  ownOfKind.forEach((each, kind) => {
    const inRows = [[kindRow + ownOfKind.length + kind, 1] as const];
    for (let step = 0; step < Math.min(2 * pairs, stepsOfKind[kind]!); step++) {
      const square = each * (2 * step + 1);
      units.push({ of: kind, step, isKind: true, square, least: 0, inRows });
    }
  });
  return units;
}

/** All columns before the cells, for whole pairs. */
function valuesFor(
  rules: PairRules,
  units: readonly Unit[],
  places: Pick<PairLayout, 'counts' | 'roots' | 'squares' | 'cells'>,
  chosen: readonly number[],
): Float64Array {
  const { kindOf, ownOfKind, factors } = rules.parts;
  const values = new Float64Array(places.cells);
  const count = countsOf(rules, chosen);
  const ofKind = new Int32Array(ownOfKind.length);
  count.forEach((each, fish) => (ofKind[kindOf[fish]!]! += each));
  units.forEach(({ of, step, isKind }, column) => {
    values[column] = step < (isKind ? ofKind : count)[of]! ? 1 : 0;
  });
  values.set(ofKind, places.counts);
  factors.forEach((factor, k) => {
    const root = rootOf(factor, ofKind);
    values[places.roots + k] = root;
    values[places.squares + k] = root * root;
  });
  return values;
}

/** f'n, by counts of the kinds. */
export const rootOf = (factor: Float64Array, counts: ArrayLike<number>): number =>
  factor.reduce((sum, each, k) => sum + each * counts[k]!, 0);

/** Columns of a sparse matrix, one after another. */
class Columns {
  readonly #starts: number[] = [0];
  readonly #indices: number[] = [];
  readonly #values: number[] = [];
  readonly #lower: number[] = [];
  readonly #upper: number[] = [];
  readonly #cost: number[] = [];

  get size(): number {
    return this.#cost.length;
  }

  add(...entries: readonly (readonly [number, number])[]): void {
    for (const [row, value] of entries) {
      if (value === 0) continue;
      this.#indices.push(row);
      this.#values.push(value);
    }
    this.#starts.push(this.#indices.length);
  }

  bounds(lower: number, upper: number, cost: number): void {
    this.#lower.push(lower);
    this.#upper.push(upper);
    this.#cost.push(cost);
  }

  model(
    rowLower: Float64Array,
    rowUpper: Float64Array,
  ): { readonly data: ModelData; readonly cost: Float64Array } {
    const [numRows, numCols] = [rowLower.length, this.size];
    const data: ModelData = {
      numCols,
      numRows,
      colCost: new Float64Array(numCols),
      colLower: Float64Array.from(this.#lower),
      colUpper: Float64Array.from(this.#upper),
      rowLower,
      rowUpper,
      matrix: {
        format: 'csc',
        numRows,
        numCols,
        starts: Int32Array.from(this.#starts),
        indices: Int32Array.from(this.#indices),
        values: Float64Array.from(this.#values),
      },
    };
    return { data, cost: Float64Array.from(this.#cost) };
  }
}
