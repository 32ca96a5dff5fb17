/**
 * Cholesky factor of a matrix that grows and shrinks by one row and column at a time. Rows of the lower triangle, each in a place of its
 * own width. Cost: the square of the size, a change or a solution.
 *
 * Source: Golub GH & Van Loan CF (2013) Matrix Computations, 4th ed., section 6.5 (adding and removing rows).
 */
export class GrowingFactor {
  #size = 0;
  #width = 16;
  #rows = new Float64Array(16 * 16);

  get size(): number {
    return this.#size;
  }

  /**
   * Adds a row and a column at the end.
   *
   * @param column the new column above its diagonal.
   * @param smallest what must be left of the diagonal, beyond what the rows before it tell.
   * @returns whether so much is left; if not, nothing is added.
   */
  append(column: ArrayLike<number>, diagonal: number, smallest: number): boolean {
    this.#makeRoom();
    const at = this.#size * this.#width;
    let left = diagonal;
    for (let j = 0; j < this.#size; j++) {
      const row = j * this.#width;
      let sum = column[j]!;
      for (let k = 0; k < j; k++) sum -= this.#rows[row + k]! * this.#rows[at + k]!;
      sum /= this.#rows[row + j]!;
      this.#rows[at + j] = sum;
      left -= sum * sum;
    }
    if (!(left > smallest)) return false;
    this.#rows[at + this.#size] = Math.sqrt(left);
    this.#size++;
    return true;
  }

  /** Takes out a row and its column; those behind it move up. */
  remove(index: number): void {
    const width = this.#width;
    for (let i = index + 1; i < this.#size; i++) {
      const from = i * width;
      this.#rows.copyWithin(from - width, from, from + i + 1);
    }
    this.#size--;
    // Each row behind it reaches one beyond its diagonal: turned back column by column.
    for (let j = index; j < this.#size; j++) this.#turn(j);
  }

  /** Rotates columns j and j + 1 so that row j ends at its diagonal. */
  #turn(j: number): void {
    const width = this.#width;
    const own = j * width + j;
    const length = Math.hypot(this.#rows[own]!, this.#rows[own + 1]!);
    const cosine = this.#rows[own]! / length;
    const sine = this.#rows[own + 1]! / length;
    for (let i = j; i < this.#size; i++) {
      const at = i * width + j;
      const [a, b] = [this.#rows[at]!, this.#rows[at + 1]!];
      this.#rows[at] = cosine * a + sine * b;
      this.#rows[at + 1] = cosine * b - sine * a;
    }
  }

  /** Solves for one right side, in its place. */
  solve(side: Float64Array): Float64Array {
    const width = this.#width;
    for (let i = 0; i < this.#size; i++) {
      const row = i * width;
      let sum = side[i]!;
      for (let k = 0; k < i; k++) sum -= this.#rows[row + k]! * side[k]!;
      side[i] = sum / this.#rows[row + i]!;
    }
    for (let i = this.#size - 1; i >= 0; i--) {
      const row = i * width;
      const value = (side[i]! /= this.#rows[row + i]!);
      for (let k = 0; k < i; k++) side[k]! -= this.#rows[row + k]! * value;
    }
    return side;
  }

  #makeRoom(): void {
    if (this.#size + 2 <= this.#width) return;
    const width = 2 * this.#width;
    const rows = new Float64Array(width * width);
    for (let i = 0; i < this.#size; i++) {
      const from = i * this.#width;
      rows.set(this.#rows.subarray(from, from + i + 1), i * width);
    }
    this.#rows = rows;
    this.#width = width;
  }
}
