import type { Pedigree } from '@linewright/pedigree';
import type { CoancestryOptions } from './coancestry.js';
import { countingOrder } from './counting-order.js';
import { readFounderRelationship, type FounderBlock } from './founder-relationship.js';
import { knownInbreeding } from './inbreeding.js';
import { KinshipError } from './kinship-error.js';
import { withinFamilyVariance } from './within-family-variance.js';

/** A sparse square matrix as triplets, sorted by row, then column; each place at most once. */
export interface SparseMatrix {
  readonly size: number;
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly values: Float64Array;
}

/**
 * Inverse of the additive relationship matrix by Henderson's rules with inbreeding: each individual adds
 * (1/D) t t' with t = 1 at itself and -1/2 at each known parent, D its within-family variance. Both halves are given.
 *
 * Source: Henderson CR (1976) Biometrics 32:69-83; Quaas RL (1976) Biometrics 32:949-953. Related founders enter by the
 * inverse of their own block.
 * @throws {KinshipError} `KINSHIP_SINGULAR` when some D is 0 (both parents wholly inbred, so that sibs are identical).
 * Cost: linear in individuals; m^3 for m related founders.
 */
export function relationshipInverse(
  pedigree: Pedigree,
  options: CoancestryOptions = {},
): SparseMatrix {
  const block = readFounderRelationship(pedigree, options.founders);
  const variance = withinFamilyVariance(pedigree, knownInbreeding(pedigree, options.founders));
  const { size, sire, dam } = pedigree;
  const blockEntries = (block?.founders.length ?? 0) ** 2;
  const rows = new Int32Array(9 * size + blockEntries);
  const columns = new Int32Array(rows.length);
  const values = new Float64Array(rows.length);
  let count = 0;
  const add = (row: number, column: number, value: number): void => {
    rows[count] = row;
    columns[count] = column;
    values[count++] = value;
  };
  for (let i = 0; i < size; i++) {
    if (block?.positionOf.has(i) === true) continue;
    // Rounding can leave a trace of variance between wholly inbred parents.
    if (!(variance[i]! > 1e-12)) throw singular(pedigree.ids[i]!);
    const own = 1 / variance[i]!;
    const s = sire[i]!;
    const d = dam[i]!;
    add(i, i, own);
    for (const parent of [s, d]) {
      if (parent < 0) continue;
      add(i, parent, -own / 2);
      add(parent, i, -own / 2);
      add(parent, parent, own / 4);
    }
    if (s >= 0 && d >= 0) {
      add(s, d, own / 4);
      add(d, s, own / 4);
    }
  }
  if (block !== undefined) addFounders(block, add);
  return gathered(
    size,
    rows.subarray(0, count),
    columns.subarray(0, count),
    values.subarray(0, count),
  );
}

function singular(id: string): KinshipError {
  return new KinshipError(
    'KINSHIP_SINGULAR',
    `The relationship matrix has no inverse: "${id}" differs from none of its sibs. Keep one individual of a wholly inbred line.`,
  );
}

function addFounders(
  { founders, relationship }: FounderBlock,
  add: (row: number, column: number, value: number) => void,
): void {
  const count = founders.length;
  const inverse = inverted(relationship, count);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < count; b++) {
      if (inverse[a * count + b] !== 0) add(founders[a]!, founders[b]!, inverse[a * count + b]!);
    }
  }
}

/** Inverse of a small positive definite matrix by Gauss and Jordan's elimination in place. */
function inverted(matrix: Float64Array, size: number): Float64Array {
  const a = matrix.slice();
  for (let k = 0; k < size; k++) {
    const pivot = a[k * size + k]!;
    if (!(pivot > 1e-12)) {
      throw new KinshipError(
        'KINSHIP_SINGULAR',
        'The founders’ relationships have no inverse: two are the same fish, or the figures contradict each other.',
      );
    }
    for (let j = 0; j < size; j++) a[k * size + j]! /= pivot;
    for (let i = 0; i < size; i++) {
      if (i === k) continue;
      const factor = a[i * size + k]!;
      if (factor === 0) continue;
      for (let j = 0; j < size; j++) {
        if (j !== k) a[i * size + j]! -= factor * a[k * size + j]!;
      }
      a[i * size + k] = -factor / pivot;
    }
    a[k * size + k] = 1 / pivot;
  }
  return a;
}

/** Sorts by row and column with two counting sorts and adds up what falls on one place. */
function gathered(
  size: number,
  rows: Int32Array,
  columns: Int32Array,
  values: Float64Array,
): SparseMatrix {
  const byColumn = countingOrder(columns, size, undefined);
  const order = countingOrder(rows, size, byColumn);
  const outRows = new Int32Array(order.length);
  const outColumns = new Int32Array(order.length);
  const outValues = new Float64Array(order.length);
  let count = 0;
  for (const k of order) {
    if (count > 0 && outRows[count - 1] === rows[k] && outColumns[count - 1] === columns[k]) {
      outValues[count - 1]! += values[k]!;
      continue;
    }
    outRows[count] = rows[k]!;
    outColumns[count] = columns[k]!;
    outValues[count++] = values[k]!;
  }
  return {
    size,
    rows: outRows.slice(0, count),
    columns: outColumns.slice(0, count),
    values: outValues.slice(0, count),
  };
}
