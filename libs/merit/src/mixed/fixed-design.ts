import type { FixedColumn, MixedModel, RandomTerm } from './mixed-model.js';
import { MeritError } from '../merit-error.js';

/** One equation of the fixed part of a trait. */
export interface FixedEquation {
  readonly trait: number;
  /** Name of its column, `mean` for a mean of its own. */
  readonly column: string;
  /** Level of a class, null for a covariate or the mean. */
  readonly level: string | null;
}

/** A level or covariate that the columns before it tell already, so that it has no estimate of its own and stands at 0. */
export interface ToldTwice extends FixedEquation {
  /** True for the one level of a further column that is 0 by custom; false when more than that is told twice. */
  readonly byCustom: boolean;
}

/** The fixed part: which equations are estimated, and what each row holds of them. */
export interface FixedDesign {
  readonly equations: readonly FixedEquation[];
  readonly dropped: readonly ToldTwice[];
  /** Groups of the additive term that are estimated, for one trait after the other. */
  readonly groupsEstimated: readonly (readonly boolean[])[];
  /** Equation of a column's place for a trait, -1 when dropped. Places count levels and covariates of all columns through. */
  readonly equationOf: readonly Int32Array[];
  readonly columns: readonly PlacedColumn[];
}

export interface PlacedColumn {
  readonly column: FixedColumn | 'mean';
  readonly firstPlace: number;
  readonly places: number;
}

/** Columns of the fixed part with their places; a mean in front when no column of classes stands for it. */
export function placeColumns(model: MixedModel): PlacedColumn[] {
  const known = model.mean === 'known';
  const withMean = !known && !model.fixed.some((column) => column.kind === 'classes');
  const classesFirst = [...model.fixed].sort(
    (a, b) => Number(a.kind === 'covariate') - Number(b.kind === 'covariate'),
  );
  let firstPlace = 0;
  return (withMean ? ['mean' as const, ...classesFirst] : classesFirst).map((column) => {
    const places = column !== 'mean' && column.kind === 'classes' ? column.levels.length : 1;
    const placed = { column, firstPlace, places };
    firstPlace += places;
    return placed;
  });
}

const LARGEST_FIXED_PART = 4000;

/**
 * Finds which fixed equations are told by those before them, by a Cholesky elimination of X'X in the order of the columns, later
 * classes from their last level to the first, so that it is their first level that stands at 0.
 *
 * Cost: the square of the number of places for each row's entries, the cube for the elimination.
 */
export function designFixed(model: MixedModel): FixedDesign {
  const columns = placeColumns(model);
  const places = columns.reduce((sum, { places: count }) => sum + count, 0);
  const additive = model.random.find((term) => term.groups !== undefined);
  const groups = additive?.groups?.names.length ?? 0;
  if (places + groups > LARGEST_FIXED_PART) {
    throw new MeritError(
      'MERIT_TOO_LARGE',
      `The fixed columns have ${places + groups} levels; at most ${LARGEST_FIXED_PART} can be fitted. Join levels, or fit a column with many levels as common effect.`,
      { places },
    );
  }
  const equations: FixedEquation[] = [];
  const dropped: ToldTwice[] = [];
  const groupsEstimated: boolean[][] = [];
  const equationOf = model.traits.map((_, trait) => {
    const kept = keptPlaces(model, columns, places, additive, trait);
    groupsEstimated.push(Array.from({ length: groups }, (_, g) => kept[places + g] === 1));
    const numbers = new Int32Array(places).fill(-1);
    for (const { column, firstPlace, places: count } of columns) {
      const isClasses = column !== 'mean' && column.kind === 'classes';
      let spared = isClasses && firstPlace > 0;
      for (let k = 0; k < count; k++) {
        const level = isClasses ? column.levels[k]! : null;
        const name = column === 'mean' ? 'mean' : column.name;
        if (kept[firstPlace + k] === 1) {
          numbers[firstPlace + k] = equations.length;
          equations.push({ trait, column: name, level });
        } else if (kept[firstPlace + k] === 0) {
          dropped.push({ trait, column: name, level, byCustom: spared });
          spared = false;
        }
      }
    }
    return numbers;
  });
  return { equations, dropped, groupsEstimated, equationOf, columns };
}

/** 1 where a place has an estimate of its own, 0 where it is told already, 2 where no row has it. */
function keptPlaces(
  model: MixedModel,
  columns: readonly PlacedColumn[],
  places: number,
  additive: RandomTerm | undefined,
  trait: number,
): Uint8Array {
  const groups = additive?.groups?.names.length ?? 0;
  const order = eliminationOrder(columns, places, groups);
  const size = places + groups;
  const position = new Int32Array(size);
  order.forEach((place, k) => (position[place] = k));
  const gram = new Float64Array(size * size);
  const at: number[] = [];
  const value: number[] = [];
  const { values } = model.traits[trait]!;
  const slot = additive?.slots.find((each) => each.trait === trait);
  for (let row = 0; row < model.rows; row++) {
    if (Number.isNaN(values[row]!)) continue;
    at.length = value.length = 0;
    rowPlaces(columns, row, (place, x) => {
      at.push(position[place]!);
      value.push(x);
    });
    const level = slot === undefined ? -1 : slot.level[row]!;
    for (let g = 0; g < groups && level >= 0; g++) {
      const share = additive!.groups!.shares[level * groups + g]!;
      if (share === 0) continue;
      at.push(position[places + g]!);
      value.push(share);
    }
    for (let a = 0; a < at.length; a++)
      for (let b = 0; b < at.length; b++) gram[at[a]! * size + at[b]!]! += value[a]! * value[b]!;
  }
  return independent(gram, size, order);
}

function eliminationOrder(
  columns: readonly PlacedColumn[],
  places: number,
  groups: number,
): number[] {
  const order: number[] = [];
  for (const { column, firstPlace, places: count } of columns) {
    const backwards = column !== 'mean' && column.kind === 'classes' && firstPlace > 0;
    for (let k = 0; k < count; k++) order.push(firstPlace + (backwards ? count - 1 - k : k));
  }
  for (let g = groups - 1; g >= 0; g--) order.push(places + g);
  return order;
}

function independent(gram: Float64Array, size: number, order: readonly number[]): Uint8Array {
  const kept = new Uint8Array(size);
  for (let k = 0; k < size; k++) {
    const own = gram[k * size + k]!;
    let rest = own;
    for (let j = 0; j < k; j++) rest -= gram[k * size + j]! ** 2;
    const stands = rest > 1e-9 * own && own > 0;
    kept[order[k]!] = stands ? 1 : own > 0 ? 0 : 2;
    const pivot = stands ? Math.sqrt(rest) : 0;
    gram[k * size + k] = pivot;
    for (let i = k + 1; i < size; i++) {
      if (!stands) {
        gram[i * size + k] = 0;
        continue;
      }
      let sum = gram[i * size + k]!;
      if (sum === 0 && k === 0) continue;
      for (let j = 0; j < k; j++) sum -= gram[i * size + j]! * gram[k * size + j]!;
      gram[i * size + k] = sum / pivot;
    }
  }
  return kept;
}

/** Visits what a row holds of the fixed columns. */
export function rowPlaces(
  columns: readonly PlacedColumn[],
  row: number,
  visit: (place: number, value: number) => void,
): void {
  for (const { column, firstPlace } of columns) {
    if (column === 'mean') visit(firstPlace, 1);
    else if (column.kind === 'covariate') visit(firstPlace, column.values[row]!);
    else visit(firstPlace + column.codes[row]!, 1);
  }
}
