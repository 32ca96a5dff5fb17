import { factorFront } from './dense-front.js';
import type { SymbolicFactor } from './symbolic-factor.js';

/** Thrown inside when a pivot is not above 0; what that means is for the caller to say. */
export class NotPositiveDefinite extends Error {
  constructor(readonly equation: number) {
    super(`Equation ${equation} follows from those before it.`);
  }
}

/**
 * Cholesky factor C = L L' by fronts: each block of columns is worked in a small dense matrix that gathers what its children left
 * (Duff IS & Reid JK 1983, ACM Trans Math Softw 9:302-325).
 *
 * Cost: `symbolic.work` multiplications; memory `symbolic.entries` numbers and the fronts under way.
 * @throws {NotPositiveDefinite}
 */
export class SparseCholesky {
  /** Of block b from `start[b]`: one row after the other, each as wide as the block has columns. */
  readonly values: Float64Array;
  readonly start: Float64Array;
  readonly #work: Float64Array;

  constructor(
    readonly symbolic: SymbolicFactor,
    values: Float64Array,
  ) {
    const { first, rowStart } = symbolic;
    const blocks = first.length - 1;
    this.start = new Float64Array(blocks + 1);
    for (let b = 0; b < blocks; b++) {
      const height = rowStart[b + 1]! - rowStart[b]!;
      this.start[b + 1] = this.start[b]! + height * (first[b + 1]! - first[b]!);
    }
    this.values = new Float64Array(this.start[blocks]!);
    this.#work = new Float64Array(symbolic.size);
    this.#factor(values);
  }

  /** ln |C|. */
  get logDeterminant(): number {
    let sum = 0;
    this.#eachBlock((start, columns) => {
      for (let k = 0; k < columns; k++) sum += Math.log(this.values[start + k * columns + k]!);
    });
    return 2 * sum;
  }

  /** The x with C x = b. Cost: twice the entries of the factor. */
  solve(b: Float64Array): Float64Array {
    const { order, first, rowStart, rows } = this.symbolic;
    const x = this.#work;
    const l = this.values;
    for (let k = 0; k < order.length; k++) x[k] = b[order[k]!]!;
    const blocks = first.length - 1;
    for (let block = 0; block < blocks; block++) {
      const from = first[block]!;
      const columns = first[block + 1]! - from;
      const height = rowStart[block + 1]! - rowStart[block]!;
      let at = this.start[block]!;
      for (let i = 0; i < height; i++, at += columns) {
        let sum = 0;
        const wide = i < columns ? i : columns;
        for (let k = 0; k < wide; k++) sum += l[at + k]! * x[from + k]!;
        if (i < columns) x[from + i] = (x[from + i]! - sum) / l[at + i]!;
        else x[rows[rowStart[block]! + i]!]! -= sum;
      }
    }
    for (let block = blocks - 1; block >= 0; block--) {
      const from = first[block]!;
      const columns = first[block + 1]! - from;
      const height = rowStart[block + 1]! - rowStart[block]!;
      const start = this.start[block]!;
      for (let i = height - 1; i >= 0; i--) {
        const at = start + i * columns;
        if (i < columns) x[from + i]! /= l[at + i]!;
        const xi = i < columns ? x[from + i]! : x[rows[rowStart[block]! + i]!]!;
        const wide = i < columns ? i : columns;
        for (let k = 0; k < wide; k++) x[from + k]! -= l[at + k]! * xi;
      }
    }
    const solution = new Float64Array(order.length);
    for (let k = 0; k < order.length; k++) solution[order[k]!] = x[k]!;
    return solution;
  }

  #eachBlock(visit: (start: number, columns: number) => void): void {
    const { first } = this.symbolic;
    for (let b = 0; b < first.length - 1; b++) visit(this.start[b]!, first[b + 1]! - first[b]!);
  }

  #factor(values: Float64Array): void {
    const { size, first, rowStart, rows, parent, entryStart, entryRow, entryFrom } = this.symbolic;
    const blocks = first.length - 1;
    const local = new Int32Array(size);
    const updates = new UpdateStack();
    const childCount = new Int32Array(blocks);
    for (const p of parent) if (p >= 0) childCount[p]!++;
    let front = new Float64Array(1024);
    for (let b = 0; b < blocks; b++) {
      const from = first[b]!;
      const columns = first[b + 1]! - from;
      const base = rowStart[b]!;
      const height = rowStart[b + 1]! - base;
      for (let i = 0; i < height; i++) local[rows[base + i]!] = i;
      if (columns === 1 && childCount[b] === 0) {
        this.#factorLeaf(b, values, local, updates);
        continue;
      }
      if (front.length < height * height) front = new Float64Array(2 * height * height);
      front.fill(0, 0, height * height);
      for (let j = 0; j < columns; j++) {
        for (let e = entryStart[from + j]!; e < entryStart[from + j + 1]!; e++)
          front[local[entryRow[e]!]! * height + j]! += values[entryFrom[e]!]!;
      }
      for (let child = childCount[b]!; child > 0; child--) {
        const done = updates.pop();
        addUpdate(front, height, local, rows, rowStart, first, done.block, updates.values, done.at);
      }
      const failed = factorFront(front, height, columns);
      if (failed >= 0) throw new NotPositiveDefinite(this.symbolic.order[from + failed]!);
      this.#keep(b, front, height, columns);
      if (parent[b]! >= 0) updates.push(b, front, height, columns);
    }
  }

  /** A block of one column that nothing comes before, as most are: its part of the others is a product of its column with itself. */
  #factorLeaf(b: number, values: Float64Array, local: Int32Array, updates: UpdateStack): void {
    const { first, rowStart, parent, entryStart, entryRow, entryFrom, order } = this.symbolic;
    const column = first[b]!;
    const height = rowStart[b + 1]! - rowStart[b]!;
    const at = this.start[b]!;
    const l = this.values;
    for (let e = entryStart[column]!; e < entryStart[column + 1]!; e++)
      l[at + local[entryRow[e]!]!]! += values[entryFrom[e]!]!;
    const pivot = l[at]!;
    if (!(pivot > 0)) throw new NotPositiveDefinite(order[column]!);
    const root = Math.sqrt(pivot);
    l[at] = root;
    for (let i = 1; i < height; i++) l[at + i]! /= root;
    if (parent[b]! >= 0) updates.pushProduct(b, l, at + 1, height - 1);
  }

  #keep(block: number, front: Float64Array, height: number, columns: number): void {
    let to = this.start[block]!;
    for (let i = 0; i < height; i++) {
      const at = i * height;
      for (let k = 0; k < columns; k++) this.values[to++] = k > i ? 0 : front[at + k]!;
    }
  }
}

/** Adds a child's lower half, row by row, where its rows stand in the front. */
function addUpdate(
  front: Float64Array,
  height: number,
  local: Int32Array,
  rows: Int32Array,
  rowStart: Int32Array,
  first: Int32Array,
  child: number,
  stack: Float64Array,
  at: number,
): void {
  const below = rowStart[child]! + first[child + 1]! - first[child]!;
  const count = rowStart[child + 1]! - below;
  let from = at;
  for (let i = 0; i < count; i++) {
    const row = local[rows[below + i]!]! * height;
    for (let j = 0; j <= i; j++) front[row + local[rows[below + j]!]!]! += stack[from++]!;
  }
}

/** What blocks leave for their parents: lower halves, row by row, the latest on top. */
class UpdateStack {
  values = new Float64Array(1 << 12);
  readonly #blocks: number[] = [];
  readonly #starts: number[] = [];
  #used = 0;

  push(block: number, front: Float64Array, height: number, columns: number): void {
    let to = this.#make(block, height - columns);
    for (let i = columns; i < height; i++) {
      const at = i * height;
      for (let j = columns; j <= i; j++) this.values[to++] = front[at + j]!;
    }
  }

  /** Less a column's product with itself, from `at`. */
  pushProduct(block: number, column: Float64Array, at: number, count: number): void {
    let to = this.#make(block, count);
    for (let i = 0; i < count; i++) {
      const own = column[at + i]!;
      for (let j = 0; j <= i; j++) this.values[to++] = -own * column[at + j]!;
    }
  }

  /** Makes room for a lower half of so many rows. @returns where it begins. */
  #make(block: number, count: number): number {
    const room = (count * (count + 1)) / 2;
    const from = this.#used;
    if (this.#used + room > this.values.length) {
      const larger = new Float64Array(Math.max(2 * this.values.length, this.#used + room));
      larger.set(this.values.subarray(0, this.#used));
      this.values = larger;
    }
    this.#blocks.push(block);
    this.#starts.push(from);
    this.#used += room;
    return from;
  }

  pop(): { readonly block: number; readonly at: number } {
    const block = this.#blocks.pop()!;
    const at = this.#starts.pop()!;
    this.#used = at;
    return { block, at };
  }
}
