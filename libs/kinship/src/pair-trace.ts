import { ancestorQueue, enqueue } from './ancestor-queue.js';

/**
 * Relationship of two individuals from the shares each has in its ancestors: a = sum over common ancestors k of
 * (share in the one) x (share in the other) x (within-family variance of k), visited from young to old.
 *
 * That is one entry of A = T D T' (Henderson 1976; Quaas 1976); unlike the difference of squares it is exactly 0 for unrelated
 * pairs. Arrays are indexed by individual and may be replaced by longer ones. Cost of a pair: the ancestors of both.
 */
export class PairTrace {
  #first = new Float64Array(0);
  #second = new Float64Array(0);
  #queue = ancestorQueue(0);

  /** Makes room; to be called when the arrays have grown. */
  reserve(size: number): void {
    if (this.#first.length >= size) return;
    this.#first = new Float64Array(size);
    this.#second = new Float64Array(size);
    this.#queue = ancestorQueue(size);
  }

  /**
   * Relationship (twice the coancestry) of `a` and `b`; parents stand at lower indices than their young.
   *
   * @param founders takes the shares of founders with given relationships, instead of their variance.
   */
  relationship(
    a: number,
    b: number,
    sire: Int32Array,
    dam: Int32Array,
    variance: Float64Array,
    founders?: FounderShares,
  ): number {
    const first = this.#first;
    const second = this.#second;
    const { word, summary } = this.#queue;
    enqueue(this.#queue, a);
    enqueue(this.#queue, b);
    first[a] = 1;
    second[b] = 1;
    let sum = 0;
    for (let top = Math.max(a, b) >> 10; top >= 0; top--) {
      while (summary[top] !== 0) {
        const w = (top << 5) + 31 - Math.clz32(summary[top]!);
        for (let bits = word[w]!; bits !== 0; bits = word[w]!) {
          const bit = 31 - Math.clz32(bits);
          word[w] = bits ^ (1 << bit);
          const at = (w << 5) + bit;
          const u = first[at]!;
          const v = second[at]!;
          first[at] = 0;
          second[at] = 0;
          if (founders === undefined || !founders.take(at, u, v)) sum += u * v * variance[at]!;
          for (let role = 0; role < 2; role++) {
            const parent = role === 0 ? sire[at]! : dam[at]!;
            if (parent < 0) continue;
            first[parent]! += 0.5 * u;
            second[parent]! += 0.5 * v;
            const target = parent >> 5;
            const old = word[target]!;
            word[target] = old | (1 << parent);
            if (old === 0) summary[target >> 5]! |= 1 << target;
          }
        }
        summary[top]! ^= 1 << w;
      }
    }
    return founders === undefined ? sum : sum + founders.sum();
  }
}

/** Collects the shares of founders with given relationships. */
export interface FounderShares {
  /** True when the individual is such a founder. */
  take(individual: number, first: number, second: number): boolean;
  sum(): number;
}
