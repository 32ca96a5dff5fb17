import { RandomBits } from '@linewright/pedigree';

/** Numbers from a seed, the same everywhere: uniform, normal, and fair coins. */
export class Draws {
  readonly #bits: RandomBits;
  #spare = NaN;

  /**
   * @param seed any safe integer.
   * @param run which run of a simulation they are for, 0 and up: it takes its turn among what was drawn beforehand.
   */
  constructor(
    seed: number,
    readonly run = 0,
  ) {
    this.#bits = new RandomBits(seed);
  }

  /** Those of one run of a simulation. */
  static ofRun(seed: number, run: number): Draws {
    return new Draws(seed + 7919 * run, run);
  }

  /** From 0 up to but not 1. */
  uniform(): number {
    return this.#bits.uniform();
  }

  /** A whole number from 0 up to but not `count`. */
  below(count: number): number {
    return Math.floor(this.uniform() * count);
  }

  coin(): number {
    return this.#bits.coin();
  }

  /** Standard normal, by Marsaglia's polar method: two at a time. */
  normal(): number {
    if (!Number.isNaN(this.#spare)) {
      const spare = this.#spare;
      this.#spare = NaN;
      return spare;
    }
    for (;;) {
      const x = 2 * this.uniform() - 1;
      const y = 2 * this.uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const stretch = Math.sqrt((-2 * Math.log(square)) / square);
      this.#spare = y * stretch;
      return x * stretch;
    }
  }

  /** Which of some outcomes, by their cumulative chances. */
  among(cumulative: ArrayLike<number>): number {
    const at = this.uniform();
    let k = 0;
    while (k < cumulative.length - 1 && at >= cumulative[k]!) k++;
    return k;
  }
}
