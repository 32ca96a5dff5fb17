import { ancestorQueue, enqueue, type AncestorQueue } from './ancestor-queue.js';
import type { Families } from './families.js';
import type { FounderBlock } from './founder-relationship.js';

/**
 * Traces the ancestors of a pair from young to old and sums what Meuwissen & Luo (1992) Genet Sel Evol 24:305-313 sum:
 * a = sum over ancestors k of (share of k)^2 x (within-family variance of k).
 *
 * Parents stand at lower numbers than their young. Scratch arrays are kept between traces.
 */
export class AncestorTrace {
  /** Sire and dam of each parent side by side: one cache line for both. */
  readonly #parents: Int32Array;
  readonly #share: Float64Array;
  readonly #queue: AncestorQueue;
  readonly #founderShare: Float64Array | undefined;
  readonly #founders: number[] = [];

  /**
   * @param position of each parent in the founder block, -1 for the others; needed with a block only.
   */
  constructor(
    sire: Int32Array,
    dam: Int32Array,
    /** Within-family variance of each parent, filled by the caller before it is reached. */
    readonly variance: Float64Array,
    readonly block?: FounderBlock,
    readonly position?: Int32Array,
  ) {
    this.#parents = new Int32Array(2 * sire.length);
    for (let p = 0; p < sire.length; p++) {
      this.#parents[2 * p] = sire[p]!;
      this.#parents[2 * p + 1] = dam[p]!;
    }
    this.#share = new Float64Array(sire.length);
    this.#queue = ancestorQueue(sire.length);
    this.#founderShare = block === undefined ? undefined : new Float64Array(block.founders.length);
  }

  /** Sum of squared shares for a young of these two parents, without the young's own within-family variance. */
  ofPair(first: number, second: number): number {
    const { variance, position } = this;
    const parents = this.#parents;
    const share = this.#share;
    const { word, summary } = this.#queue;
    enqueue(this.#queue, first);
    enqueue(this.#queue, second);
    share[first]! += 0.5;
    share[second]! += 0.5;
    let sum = 0;
    for (let top = Math.max(first, second) >> 10; top >= 0; top--) {
      while (summary[top] !== 0) {
        const w = (top << 5) + 31 - Math.clz32(summary[top]!);
        for (let bits = word[w]!; bits !== 0; bits = word[w]!) {
          const bit = 31 - Math.clz32(bits);
          word[w] = bits ^ (1 << bit);
          const at = (w << 5) + bit;
          const value = share[at]!;
          share[at] = 0;
          if (position !== undefined && position[at]! >= 0) this.#addFounder(position[at]!, value);
          else sum += value * value * variance[at]!;
          const half = 0.5 * value;
          const s = parents[2 * at]!;
          if (s >= 0) {
            share[s]! += half;
            const target = s >> 5;
            const old = word[target]!;
            word[target] = old | (1 << s);
            if (old === 0) summary[target >> 5]! |= 1 << target;
          }
          const d = parents[2 * at + 1]!;
          if (d >= 0) {
            share[d]! += half;
            const target = d >> 5;
            const old = word[target]!;
            word[target] = old | (1 << d);
            if (old === 0) summary[target >> 5]! |= 1 << target;
          }
        }
        summary[top]! ^= 1 << w;
      }
    }
    return this.block === undefined ? sum : sum + this.#founderSum(this.block);
  }

  #addFounder(position: number, value: number): void {
    if (this.#founderShare![position] === 0) this.#founders.push(position);
    this.#founderShare![position]! += value;
  }

  #founderSum({ relationship, founders }: FounderBlock): number {
    const share = this.#founderShare!;
    let sum = 0;
    for (const a of this.#founders) {
      let row = 0;
      for (const b of this.#founders) row += relationship[a * founders.length + b]! * share[b]!;
      sum += row * share[a]!;
    }
    for (const a of this.#founders) share[a] = 0;
    this.#founders.length = 0;
    return sum;
  }
}

/**
 * Inbreeding coefficient of every family by one trace each.
 *
 * Cost: families x their ancestors among the parents; memory linear.
 */
export function traceFamilies(families: Families, block: FounderBlock | undefined): Float64Array {
  const { count, order, sire, dam, parentCount, parentFamily, memberStart, members } = families;
  const parentSire = new Int32Array(parentCount);
  const parentDam = new Int32Array(parentCount);
  const variance = new Float64Array(parentCount);
  for (let p = 0; p < parentCount; p++) {
    const family = parentFamily[p]!;
    parentSire[p] = sire[family]!;
    parentDam[p] = dam[family]!;
  }
  let position: Int32Array | undefined;
  if (block !== undefined) {
    position = new Int32Array(parentCount).fill(-1);
    for (const [fish, at] of block.positionOf) {
      const parent = families.parentNumber[fish]!;
      if (parent >= 0) position[parent] = at;
    }
  }
  const trace = new AncestorTrace(parentSire, parentDam, variance, block, position);
  const inbreeding = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const family = order[k]!;
    const s = sire[family]!;
    const d = dam[family]!;
    // An unknown parent counts as one with F = -1: its variance is wholly passed on.
    const bySire = s < 0 ? -1 : inbreeding[parentFamily[s]!]!;
    const byDam = d < 0 ? -1 : inbreeding[parentFamily[d]!]!;
    const within = 0.5 - 0.25 * (bySire + byDam);
    for (let m = memberStart[family]!; m < memberStart[family + 1]!; m++) {
      variance[members[m]!] = within;
    }
    if (s >= 0 && d >= 0) inbreeding[family] = Math.max(0, trace.ofPair(s, d) + within - 1);
    else if (s < 0 && d < 0 && position !== undefined) {
      const parent = members[memberStart[family]!]!;
      const at = position[parent]!;
      if (at >= 0) {
        inbreeding[family] = block!.relationship[at * block!.founders.length + at]! - 1;
      }
    }
  }
  return inbreeding;
}
