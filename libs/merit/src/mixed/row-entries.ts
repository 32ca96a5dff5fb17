import type { LinearMatrixBuilder } from '../sparse/linear-matrix.js';

/** What each row of one trait holds of the equations: a sparse matrix W by rows. */
export class RowEntries {
  readonly start: Int32Array;
  #equation = new Int32Array(1 << 10);
  #value = new Float64Array(1 << 10);
  #count = 0;
  #row = 0;

  constructor(rows: number) {
    this.start = new Int32Array(rows + 1);
  }

  add(equation: number, value: number): void {
    // A group that is not estimated stands at 0.
    if (equation < 0) return;
    if (this.#count === this.#equation.length) {
      const equations = new Int32Array(2 * this.#count);
      equations.set(this.#equation);
      this.#equation = equations;
      const values = new Float64Array(2 * this.#count);
      values.set(this.#value);
      this.#value = values;
    }
    this.#equation[this.#count] = equation;
    this.#value[this.#count++] = value;
  }

  endRow(): void {
    this.start[++this.#row] = this.#count;
  }

  /** Visits what a row holds. */
  each(row: number, visit: (equation: number, value: number) => void): void {
    for (let k = this.start[row]!; k < this.start[row + 1]!; k++)
      visit(this.#equation[k]!, this.#value[k]!);
  }

  /** Fitted value of a row: its entries times the solution. */
  times(row: number, solution: Float64Array): number {
    let sum = 0;
    for (let k = this.start[row]!; k < this.start[row + 1]!; k++)
      sum += this.#value[k]! * solution[this.#equation[k]!]!;
    return sum;
  }

  /** Adds the row's entries times `factor` to a right-hand side. */
  addTo(row: number, factor: number, side: Float64Array): void {
    for (let k = this.start[row]!; k < this.start[row + 1]!; k++)
      side[this.#equation[k]!]! += factor * this.#value[k]!;
  }

  /** Adds the products of the row's entries with themselves, or with those of another trait, to a part of a matrix. */
  addProducts(
    builder: LinearMatrixBuilder,
    part: number,
    row: number,
    weight: number,
    other?: RowEntries,
  ): void {
    for (let a = this.start[row]!; a < this.start[row + 1]!; a++) {
      const value = weight * this.#value[a]!;
      const equation = this.#equation[a]!;
      if (other === undefined) {
        for (let b = this.start[row]!; b <= a; b++)
          builder.add(part, equation, this.#equation[b]!, value * this.#value[b]!);
      } else {
        for (let b = other.start[row]!; b < other.start[row + 1]!; b++)
          builder.add(part, equation, other.#equation[b]!, value * other.#value[b]!);
      }
    }
  }

  /** Adds the row's entries times `value` to the column of one equation of its own. */
  addColumn(
    builder: LinearMatrixBuilder,
    part: number,
    row: number,
    equation: number,
    value: number,
  ): void {
    for (let k = this.start[row]!; k < this.start[row + 1]!; k++)
      builder.add(part, equation, this.#equation[k]!, value * this.#value[k]!);
  }
}
