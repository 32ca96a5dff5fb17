import { coancestry, coancestryBlock } from '@linewright/kinship';
import type { PairingJudge } from './pairing-judge.js';

/** Coancestries held at once: eight megabytes. */
const MOST_HELD = 1_000_000;

/**
 * Coancestries of males by females, a strip of males at a time: while a list of millions of pairs is gone through, only the
 * males of the strip stand in memory. A pair outside it is worked out by itself and remembered.
 */
export class CoancestryStrip {
  #from = 0;
  #to = 0;
  #block: Float64Array = new Float64Array(0);
  readonly #single = new Map<number, number>();

  /** Males a strip, so that it stays within bounds. */
  rowsFor(females: number): number {
    return Math.max(1, Math.floor(MOST_HELD / Math.max(1, females)));
  }

  fill(judge: PairingJudge, from: number, to: number): void {
    this.#from = from;
    this.#to = to;
    this.#block = coancestryBlock(
      judge.pedigree,
      judge.maleIndex.subarray(from, to),
      judge.femaleIndex,
    );
  }

  /** Lets the strip go, unless it holds every male: single pairs are worked out by themselves from now on. */
  drop(): void {
    if (this.#from === 0) return;
    this.#from = this.#to = 0;
    this.#block = new Float64Array(0);
  }

  of(judge: PairingJudge): (m: number, f: number) => number {
    const columns = judge.females.length;
    return (m, f) => {
      if (m >= this.#from && m < this.#to) return this.#block[(m - this.#from) * columns + f] ?? 0;
      const pair = m * columns + f;
      const known =
        this.#single.get(pair) ??
        coancestry(judge.pedigree, judge.maleIndex[m] ?? 0, judge.femaleIndex[f] ?? 0);
      this.#single.set(pair, known);
      return known;
    };
  }
}
