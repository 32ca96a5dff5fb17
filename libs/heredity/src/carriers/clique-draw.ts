/** Variables of a clique with the numbers of their states, and those of them that are drawn before it. */
export interface DrawnClique {
  readonly variables: readonly number[];
  readonly sizes: readonly number[];
  readonly given: readonly number[];
}

/**
 * Draws the variables of a clique given those that were drawn before it. The table is sorted once by the states of these, with running
 * sums: a draw is one search in the part that fits.
 *
 * @param places place of each entry of the table among the states of the given variables.
 */
export class CliqueDraw {
  readonly #clique: DrawnClique;
  readonly #strides: readonly number[];
  readonly #entry: Int32Array;
  readonly #sums: Float64Array;
  readonly #each: number;

  constructor(clique: DrawnClique, values: Float64Array, places: Int32Array) {
    this.#clique = clique;
    const { variables, sizes, given } = clique;
    let stride = 1;
    const strides = new Map<number, number>();
    for (const v of given.toReversed()) {
      strides.set(v, stride);
      stride *= sizes[variables.indexOf(v)] ?? 1;
    }
    this.#strides = given.map((v) => strides.get(v) ?? 0);
    this.#each = values.length / stride;
    this.#entry = new Int32Array(values.length);
    this.#sums = new Float64Array(values.length);
    const filled = new Int32Array(stride);
    values.forEach((value, entry) => {
      const part = places[entry] ?? 0;
      const at = part * this.#each + (filled[part] ?? 0);
      this.#entry[at] = entry;
      this.#sums[at] = value + (filled[part]! > 0 ? this.#sums[at - 1]! : 0);
      filled[part]!++;
    });
  }

  /** Sets the states of the clique's variables; those given stay as they are. Cost: the logarithm of the table. */
  draw(states: Uint8Array, random: () => number): void {
    const { variables, sizes, given } = this.#clique;
    let part = 0;
    given.forEach((v, k) => (part += (states[v] ?? 0) * (this.#strides[k] ?? 0)));
    const from = part * this.#each;
    let [low, high] = [from, from + this.#each - 1];
    const wanted = random() * (this.#sums[high] ?? 0);
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.#sums[middle] ?? 0) > wanted) high = middle;
      else low = middle + 1;
    }
    let entry = this.#entry[low] ?? 0;
    for (let k = variables.length - 1; k >= 0; k--) {
      const size = sizes[k] ?? 1;
      states[variables[k] ?? 0] = entry % size;
      entry = Math.floor(entry / size);
    }
  }
}
