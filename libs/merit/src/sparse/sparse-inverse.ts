import type { SparseCholesky } from './sparse-cholesky.js';

/**
 * The entries of C^-1 at the places of C itself, without the rest of the inverse: from the last block of the factor to the first,
 * with S the rows below block J and B = L_SJ L_JJ^-1,
 *
 *     Z_SJ = -Z_SS B,    Z_JJ = (L_JJ L_JJ')^-1 - B' Z_SJ.
 *
 * Source: Takahashi K, Fagan J & Chin MS (1973) Proc 8th PICA Conf 63-69; worked by blocks as the factor is.
 *
 * @returns values at the places of the matrix that was factored; those at the diagonal are variances.
 * Cost: about twice the factorisation.
 */
export function sparseInverse(factor: SparseCholesky, places: number): Float64Array {
  const { size, first, rowStart, rows, parent, entryStart, entryRow, entryFrom } = factor.symbolic;
  const blocks = first.length - 1;
  const result = new Float64Array(places);
  const local = new Int32Array(size);
  const childCount = new Int32Array(blocks);
  for (const p of parent) if (p >= 0) childCount[p]!++;
  const kept: (Float64Array | undefined)[] = new Array<Float64Array | undefined>(blocks);
  let scratch = new Float64Array(1024);
  let gathered = new Int32Array(64);
  // Rows of a front stay marked for its children only as long as no other front marks them.
  let marked = -1;
  for (let b = blocks - 1; b >= 0; b--) {
    const columns = first[b + 1]! - first[b]!;
    const base = rowStart[b]!;
    const height = rowStart[b + 1]! - base;
    const z = childCount[b]! > 0 ? new Float64Array(height * height) : undefined;
    if (z === undefined && scratch.length < height * height)
      scratch = new Float64Array(2 * height * height);
    const front = z ?? scratch;
    const above = parent[b]!;
    if (above >= 0) {
      const from = kept[above]!;
      const wide = rowStart[above + 1]! - rowStart[above]!;
      if (marked !== above) {
        for (let i = 0; i < wide; i++) local[rows[rowStart[above]! + i]!] = i;
        marked = above;
      }
      if (gathered.length < height) gathered = new Int32Array(2 * height);
      for (let i = columns; i < height; i++) gathered[i] = local[rows[base + i]!]!;
      for (let i = columns; i < height; i++) {
        const row = gathered[i]! * wide;
        for (let j = columns; j <= i; j++) {
          const value = from[row + gathered[j]!]!;
          front[i * height + j] = value;
          front[j * height + i] = value;
        }
      }
      if (--childCount[above]! === 0) kept[above] = undefined;
    }
    fillColumns(front, factor.block(b), height, columns);
    if (z !== undefined) kept[b] = z;
    readEntries(b, front, height);
  }
  return result;

  function readEntries(b: number, front: Float64Array, height: number): void {
    const base = rowStart[b]!;
    const end = rowStart[b + 1]!;
    for (let j = first[b]!; j < first[b + 1]!; j++) {
      const column = j - first[b]!;
      for (let e = entryStart[j]!; e < entryStart[j + 1]!; e++) {
        const row = find(rows, base, end, entryRow[e]!) - base;
        result[entryFrom[e]!] = front[row * height + column]!;
      }
    }
  }
}

/** Where `value` stands among the ascending rows. */
function find(rows: Int32Array, from: number, to: number, value: number): number {
  let low = from;
  let high = to - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rows[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Fills the block's columns and rows of its front, of which the part below is already there, both halves. */
function fillColumns(z: Float64Array, l: Float64Array, height: number, columns: number): void {
  // B = L_SJ L_JJ^-1, row by row, from the last column to the first.
  const below = height - columns;
  const b = new Float64Array(below * columns);
  for (let i = 0; i < below; i++) {
    const at = i * columns;
    for (let k = columns - 1; k >= 0; k--) {
      let sum = l[(columns + i) * columns + k]!;
      for (let m = k + 1; m < columns; m++) sum -= b[at + m]! * l[m * columns + k]!;
      b[at + k] = sum / l[k * columns + k]!;
    }
  }
  for (let i = 0; i < below; i++) {
    const to = (columns + i) * height;
    for (let k = 0; k < columns; k++) z[to + k] = 0;
    for (let m = 0; m < below; m++) {
      const weight = z[to + columns + m]!;
      const from = m * columns;
      for (let k = 0; k < columns; k++) z[to + k]! -= weight * b[from + k]!;
    }
  }
  const own = inverseOfBlock(l, columns);
  for (let j = 0; j < columns; j++) {
    for (let k = 0; k <= j; k++) {
      let sum = own[j * columns + k]!;
      for (let i = 0; i < below; i++) sum -= b[i * columns + j]! * z[(columns + i) * height + k]!;
      z[j * height + k] = sum;
      z[k * height + j] = sum;
    }
  }
  for (let i = columns; i < height; i++)
    for (let k = 0; k < columns; k++) z[k * height + i] = z[i * height + k]!;
}

/** (L L')^-1 of the block's own columns, lower half. */
function inverseOfBlock(l: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    inverse[j * size + j] = 1 / l[j * size + j]!;
    for (let i = j + 1; i < size; i++) {
      let sum = 0;
      for (let k = j; k < i; k++) sum += l[i * size + k]! * inverse[k * size + j]!;
      inverse[i * size + j] = -sum / l[i * size + i]!;
    }
  }
  const product = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    for (let k = 0; k <= j; k++) {
      let sum = 0;
      for (let i = j; i < size; i++) sum += inverse[i * size + j]! * inverse[i * size + k]!;
      product[j * size + k] = sum;
    }
  }
  return product;
}
