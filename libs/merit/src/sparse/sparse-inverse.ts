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
  const fronts = new Fronts();
  const keptAt = new Int32Array(blocks);
  const columnsWork = new ColumnsWork();
  let gathered = new Int32Array(64);
  // Rows of a front stay marked for its children only as long as no other front marks them.
  let marked = -1;
  for (let b = blocks - 1; b >= 0; b--) {
    const columns = first[b + 1]! - first[b]!;
    const base = rowStart[b]!;
    const height = rowStart[b + 1]! - base;
    const at = fronts.take(height * height);
    const z = fronts.values;
    const above = parent[b]!;
    if (above >= 0) {
      const from = keptAt[above]!;
      const wide = rowStart[above + 1]! - rowStart[above]!;
      if (marked !== above) {
        for (let i = 0; i < wide; i++) local[rows[rowStart[above]! + i]!] = i;
        marked = above;
      }
      if (gathered.length < height) gathered = new Int32Array(2 * height);
      for (let i = columns; i < height; i++) gathered[i] = local[rows[base + i]!]!;
      for (let i = columns; i < height; i++) {
        const row = from + gathered[i]! * wide;
        for (let j = columns; j <= i; j++) {
          const value = z[row + gathered[j]!]!;
          z[at + i * height + j] = value;
          z[at + j * height + i] = value;
        }
      }
      if (--childCount[above]! === 0) fronts.giveBack(from, wide * wide);
    }
    columnsWork.fill(z, at, factor, b, height);
    for (let j = 0; j < columns; j++) {
      const column = first[b]! + j;
      for (let e = entryStart[column]!; e < entryStart[column + 1]!; e++) {
        const row = find(rows, base, base + height, entryRow[e]!) - base;
        result[entryFrom[e]!] = z[at + row * height + j]!;
      }
    }
    if (childCount[b]! > 0) keptAt[b] = at;
    else fronts.giveBack(at, height * height);
  }
  return result;
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

/** Fronts in one array, each where one that is done with stood before: to ask for a thousand small arrays costs more than to fill them. */
class Fronts {
  values = new Float64Array(1 << 14);
  readonly #free: number[][] = [];
  #used = 0;

  /** Room for so many numbers, with whatever stands in it. @returns where it begins; `values` may be another array afterwards. */
  take(size: number): number {
    const width = widthOf(size);
    const again = this.#free[width]?.pop();
    if (again !== undefined) return again;
    const at = this.#used;
    this.#used += 2 ** width;
    if (this.#used > this.values.length) {
      const larger = new Float64Array(Math.max(2 * this.values.length, this.#used));
      larger.set(this.values);
      this.values = larger;
    }
    return at;
  }

  giveBack(at: number, size: number): void {
    (this.#free[widthOf(size)] ??= []).push(at);
  }
}

/** The power of two in which so many numbers have room. */
const widthOf = (size: number): number => 32 - Math.clz32(size - 1);

/** Fills a block's columns and rows of its front, of which the part below is already there, both halves. */
class ColumnsWork {
  #b = new Float64Array(256);
  #inverse = new Float64Array(64);
  #product = new Float64Array(64);

  /** @param at where the front begins in `z`. */
  fill(z: Float64Array, at: number, factor: SparseCholesky, block: number, height: number): void {
    const { first } = factor.symbolic;
    const columns = first[block + 1]! - first[block]!;
    const from = factor.start[block]!;
    if (columns === 1) this.#fillOne(z, at, factor.values, from, height);
    else this.#fillAll(z, at, factor.values, from, height, columns);
  }

  #fillOne(z: Float64Array, at: number, l: Float64Array, from: number, height: number): void {
    const b = this.#roomForB(height);
    const pivot = l[from]!;
    for (let i = 1; i < height; i++) b[i] = l[from + i]! / pivot;
    let own = 1 / (pivot * pivot);
    for (let i = 1; i < height; i++) {
      const row = at + i * height;
      let sum = 0;
      for (let m = 1; m < height; m++) sum -= z[row + m]! * b[m]!;
      z[row] = sum;
      z[at + i] = sum;
      own -= b[i]! * sum;
    }
    z[at] = own;
  }

  #fillAll(
    z: Float64Array,
    at: number,
    l: Float64Array,
    start: number,
    height: number,
    columns: number,
  ): void {
    // B = L_SJ L_JJ^-1, row by row, from the last column to the first.
    const below = height - columns;
    const b = this.#roomForB(below * columns);
    for (let i = 0; i < below; i++) {
      const to = i * columns;
      for (let k = columns - 1; k >= 0; k--) {
        let sum = l[start + (columns + i) * columns + k]!;
        for (let m = k + 1; m < columns; m++) sum -= b[to + m]! * l[start + m * columns + k]!;
        b[to + k] = sum / l[start + k * columns + k]!;
      }
    }
    for (let i = 0; i < below; i++) {
      const to = at + (columns + i) * height;
      for (let k = 0; k < columns; k++) z[to + k] = 0;
      for (let m = 0; m < below; m++) {
        const weight = z[to + columns + m]!;
        const from = m * columns;
        for (let k = 0; k < columns; k++) z[to + k]! -= weight * b[from + k]!;
      }
    }
    const own = this.#inverseOfBlock(l, start, columns);
    for (let j = 0; j < columns; j++) {
      for (let k = 0; k <= j; k++) {
        let sum = own[j * columns + k]!;
        for (let i = 0; i < below; i++)
          sum -= b[i * columns + j]! * z[at + (columns + i) * height + k]!;
        z[at + j * height + k] = sum;
        z[at + k * height + j] = sum;
      }
    }
    for (let i = columns; i < height; i++)
      for (let k = 0; k < columns; k++) z[at + k * height + i] = z[at + i * height + k]!;
  }

  #roomForB(size: number): Float64Array {
    if (this.#b.length < size) this.#b = new Float64Array(2 * size);
    return this.#b;
  }

  /** (L L')^-1 of the block's own columns, lower half. */
  #inverseOfBlock(l: Float64Array, start: number, size: number): Float64Array {
    if (this.#inverse.length < size * size) {
      this.#inverse = new Float64Array(2 * size * size);
      this.#product = new Float64Array(2 * size * size);
    }
    const inverse = this.#inverse;
    const product = this.#product;
    for (let j = 0; j < size; j++) {
      inverse[j * size + j] = 1 / l[start + j * size + j]!;
      for (let i = j + 1; i < size; i++) {
        let sum = 0;
        for (let k = j; k < i; k++) sum += l[start + i * size + k]! * inverse[k * size + j]!;
        inverse[i * size + j] = -sum / l[start + i * size + i]!;
      }
    }
    for (let j = 0; j < size; j++) {
      for (let k = 0; k <= j; k++) {
        let sum = 0;
        for (let i = j; i < size; i++) sum += inverse[i * size + j]! * inverse[i * size + k]!;
        product[j * size + k] = sum;
      }
    }
    return product;
  }
}
