import { countingOrder } from '@linewright/kinship';

/** One part of a {@link LinearMatrix}: `value[k]` stands at place `at[k]`. */
export interface MatrixPart {
  readonly at: Int32Array;
  readonly value: Float64Array;
}

/**
 * A sparse symmetric matrix that is a weighted sum of fixed parts: C = sum of w[p] M[p]. Equations of a mixed model are of this
 * kind, with the inverse variances as weights, so that the pattern is worked out once for all of them.
 *
 * Only the lower half is stored, by columns: those of column j stand at places `start[j]` to `start[j + 1] - 1`, rows
 * ascending, the diagonal first where it is there.
 */
export class LinearMatrix {
  constructor(
    readonly size: number,
    readonly start: Int32Array,
    readonly row: Int32Array,
    readonly parts: readonly MatrixPart[],
  ) {}

  /** Values at all places for the given weights, one a part. Cost: entries of all parts. */
  combine(weights: ArrayLike<number>): Float64Array {
    const values = new Float64Array(this.row.length);
    this.parts.forEach(({ at, value }, part) => {
      const weight = weights[part]!;
      for (let k = 0; k < at.length; k++) values[at[k]!]! += weight * value[k]!;
    });
    return values;
  }

  /** tr(M[part] Z) for a symmetric Z of which the values at this pattern's places are given. */
  trace(part: number, inverse: Float64Array): number {
    const { at, value } = this.parts[part]!;
    let sum = 0;
    for (let k = 0; k < at.length; k++) {
      const place = at[k]!;
      sum += value[k]! * inverse[place]! * (this.#isDiagonal[place] === 1 ? 1 : 2);
    }
    return sum;
  }

  /** y = C x. */
  multiply(values: Float64Array, x: Float64Array, y: Float64Array): void {
    const { size, start, row } = this;
    y.fill(0);
    for (let j = 0; j < size; j++) {
      const xj = x[j]!;
      let sum = 0;
      for (let k = start[j]!; k < start[j + 1]!; k++) {
        const i = row[k]!;
        const value = values[k]!;
        if (i === j) sum += value * xj;
        else {
          y[i]! += value * xj;
          sum += value * x[i]!;
        }
      }
      y[j]! += sum;
    }
  }

  get #isDiagonal(): Uint8Array {
    if (this.#diagonal === undefined) {
      this.#diagonal = new Uint8Array(this.row.length);
      for (let j = 0; j < this.size; j++) {
        for (let k = this.start[j]!; k < this.start[j + 1]!; k++)
          if (this.row[k] === j) this.#diagonal[k] = 1;
      }
    }
    return this.#diagonal;
  }

  #diagonal: Uint8Array | undefined;
}

/** The place of an entry that the pattern of a matrix has, in either half. Cost: halvings of a column. */
export function placeOf({ start, row }: LinearMatrix, i: number, j: number): number {
  const [wanted, column] = i > j ? [i, j] : [j, i];
  let low = start[column]!;
  let high = start[column + 1]! - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (row[middle]! < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The diagonal out of values at the places of a matrix that has a place for each of it. */
export function diagonalOf({ size, start }: LinearMatrix, values: Float64Array): Float64Array {
  const diagonal = new Float64Array(size);
  for (let j = 0; j < size; j++) diagonal[j] = values[start[j]!]!;
  return diagonal;
}

/** Gathers entries of a {@link LinearMatrix}; an entry may be added many times, in either half. */
export class LinearMatrixBuilder {
  #row = new Int32Array(1 << 12);
  #column = new Int32Array(1 << 12);
  #value = new Float64Array(1 << 12);
  #part = new Uint16Array(1 << 12);
  #count = 0;
  #places: Int32Array | undefined;

  constructor(readonly size: number) {}

  /** Adds to the symmetric matrix: (i, j) and (j, i) are one entry. */
  add(part: number, i: number, j: number, value: number): void {
    if (this.#count === this.#row.length) this.#grow();
    const k = this.#count++;
    this.#row[k] = i > j ? i : j;
    this.#column[k] = i > j ? j : i;
    this.#value[k] = value;
    this.#part[k] = part;
  }

  /** Begins anew with the room that is there. */
  again(): void {
    this.#count = 0;
  }

  /**
   * Values, all parts together, at the places of the matrix that was built before from entries added in the very same order. Cost: the
   * entries.
   */
  refilled(matrix: LinearMatrix): Float64Array {
    const values = new Float64Array(matrix.row.length);
    for (let k = 0; k < this.#count; k++) values[this.#places![k]!]! += this.#value[k]!;
    return values;
  }

  /** Cost: two counting sorts. */
  build(parts: number): LinearMatrix {
    const count = this.#count;
    const column = this.#column.subarray(0, count);
    const byRow = countingOrder(this.#row.subarray(0, count), this.size, undefined);
    const order = countingOrder(column, this.size, byRow);
    const place = new Int32Array(count);
    const rows = new Int32Array(count);
    const start = new Int32Array(this.size + 1);
    let places = 0;
    let lastColumn = -1;
    for (const k of order) {
      if (column[k] !== lastColumn || rows[places - 1] !== this.#row[k]) {
        lastColumn = column[k]!;
        rows[places++] = this.#row[k]!;
        start[lastColumn + 1]!++;
      }
      place[k] = places - 1;
    }
    this.#places = place;
    for (let j = 0; j < this.size; j++) start[j + 1]! += start[j]!;
    return new LinearMatrix(
      this.size,
      start,
      rows.slice(0, places),
      this.#gather(parts, place, order),
    );
  }

  /** Adds up what falls on one place of one part. */
  #gather(parts: number, place: Int32Array, order: Int32Array): MatrixPart[] {
    const length = new Int32Array(parts);
    for (let k = 0; k < this.#count; k++) length[this.#part[k]!]!++;
    const gathered = Array.from(length, (room) => ({
      at: new Int32Array(room),
      value: new Float64Array(room),
    }));
    const used = new Int32Array(parts);
    for (const k of order) {
      const part = this.#part[k]!;
      const { at, value } = gathered[part]!;
      const last = used[part]! - 1;
      if (last >= 0 && at[last] === place[k]) value[last]! += this.#value[k]!;
      else {
        at[used[part]!] = place[k]!;
        value[used[part]!++] = this.#value[k]!;
      }
    }
    return gathered.map(({ at, value }, part) => ({
      at: at.slice(0, used[part]),
      value: value.slice(0, used[part]),
    }));
  }

  #grow(): void {
    const room = 2 * this.#row.length;
    const enlarged = <T extends { set(from: T): void }>(array: T, larger: T): T => {
      larger.set(array);
      return larger;
    };
    this.#row = enlarged(this.#row, new Int32Array(room));
    this.#column = enlarged(this.#column, new Int32Array(room));
    this.#value = enlarged(this.#value, new Float64Array(room));
    this.#part = enlarged(this.#part, new Uint16Array(room));
  }
}
