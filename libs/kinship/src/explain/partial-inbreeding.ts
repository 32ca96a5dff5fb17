import { withAncestors, type Pedigree } from '@linewright/pedigree';
import { checkIndices } from '../checks.js';
import type { FounderOptions } from '../founder-relationship.js';
import { knownInbreeding } from '../inbreeding.js';
import { founderContributions, type FounderSource } from '../population/founders.js';

/** Shares of the inbreeding of several fish by where it comes from. */
export interface PartialInbreeding<Source> {
  readonly sources: readonly Source[];
  /** Fish x sources, row-major, in the order of the fish asked for. */
  readonly values: Float64Array;
  /** F of each fish. */
  readonly inbreeding: Float64Array;
}

export interface PartialInbreedingByFounder extends PartialInbreeding<FounderSource> {
  /**
   * Of each fish, the part of F in which its two genes come from two different founders given as related; 0 where none are. With
   * it the founders' parts add up to F.
   */
  readonly betweenFounders: Float64Array;
}

/**
 * Partial inbreeding by founder: the probability that a fish's two genes are copies of one gene of that founder. Over all
 * founders (and the unknown parents of half-known fish, which count as founders) it adds up to F.
 *
 * Of a founder given as inbred its two genes alike by descent count as one gene; what comes about between two founders given as
 * related belongs to neither and is told in `betweenFounders`.
 *
 * Source: Lacy RC, Alaks G & Walsh A (1996) Evolution 50:2187-2200, definition from memory; computed here as one entry of
 * T D_j T' for each founder j, with the within-family variance that belongs to j's genes,
 * D_j(i) = (c_s + c_d - F_s - F_d) / 4, where c is the share of j in a parent and F the parent's partial inbreeding by j.
 *
 * Cost: for each pair of parents at or above the fish, one climb of its ancestors for every 32 founders.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for no fish.
 * @example
 * const { sources, values } = partialInbreedingByFounder(pedigree, [fry]);
 * values[0]; // what the founder sources[0] adds to the F of the fry
 */
export function partialInbreedingByFounder(
  pedigree: Pedigree,
  fish: ArrayLike<number>,
  options: FounderOptions = {},
): PartialInbreedingByFounder {
  const sources = founderContributions(pedigree, fish).map(({ founder, unknownParent }) => ({
    founder,
    unknownParent,
  }));
  const parts = partialInbreeding(pedigree, fish, sources, options);
  const betweenFounders = new Float64Array(fish.length);
  if (options.founders !== undefined) {
    for (let row = 0; row < fish.length; row++) {
      const own = parts.values.subarray(row * sources.length, (row + 1) * sources.length);
      const left = parts.inbreeding[row]! - own.reduce((sum, value) => sum + value, 0);
      // What is left of rounding.
      betweenFounders[row] = left > 1e-14 ? left : 0;
    }
  }
  return { ...parts, betweenFounders };
}

/**
 * Partial inbreeding through given ancestors: the probability that a fish's two genes are alike by descent and both came down
 * through that ancestor, wherever they were last one gene. For a founder it is {@link partialInbreedingByFounder}; for a
 * later fish it includes the inbreeding it was born with, so the values of several ancestors overlap and do not add up. Of a
 * fish through itself it is F.
 *
 * Cost: as {@link partialInbreedingByFounder}, for each ancestor.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 */
export function partialInbreedingThrough(
  pedigree: Pedigree,
  fish: ArrayLike<number>,
  ancestors: ArrayLike<number>,
  options: FounderOptions = {},
): PartialInbreeding<number> {
  checkIndices(pedigree, ancestors);
  const sources = Array.from(ancestors, (founder) => ({ founder, unknownParent: false }));
  return { ...partialInbreeding(pedigree, fish, sources, options), sources: Array.from(ancestors) };
}

function partialInbreeding(
  pedigree: Pedigree,
  fish: ArrayLike<number>,
  sources: readonly FounderSource[],
  { founders }: FounderOptions,
): PartialInbreeding<FounderSource> {
  checkIndices(pedigree, fish);
  const inbreeding = knownInbreeding(pedigree, founders);
  const tracer = new SourceTracer(pedigree, fish, inbreeding);
  const values = new Float64Array(fish.length * sources.length);
  for (let first = 0; first < sources.length; first += BLOCK) {
    const block = sources.slice(first, first + BLOCK);
    const partial = tracer.trace(block);
    for (let row = 0; row < fish.length; row++) {
      const from = tracer.placeOf(fish[row]!) * block.length;
      values.set(partial.subarray(from, from + block.length), row * sources.length + first);
    }
  }
  return { sources, values, inbreeding: Float64Array.from(fish, (index) => inbreeding[index]!) };
}

/** Sources traced together: enough to share the climbing, few enough that three tables of them stay small. */
const BLOCK = 32;

/** The fish asked for and their ancestors, on places of their own in the same order. */
class SourceTracer {
  readonly #fish: Int32Array;
  readonly #place: Int32Array;
  readonly #sire: Int32Array;
  readonly #dam: Int32Array;
  readonly #inbreeding: Float64Array;
  /** First place with the same two parents; its own where there is none, -1 where a parent is unknown. */
  readonly #elder: Int32Array;
  readonly #bySire: Float64Array;
  readonly #byDam: Float64Array;

  constructor(pedigree: Pedigree, fish: ArrayLike<number>, inbreeding: Float64Array) {
    this.#fish = withAncestors(pedigree, fish);
    this.#place = new Int32Array(pedigree.size).fill(-1);
    this.#fish.forEach((index, place) => (this.#place[index] = place));
    const at = (parent: number): number => (parent < 0 ? -1 : this.#place[parent]!);
    this.#sire = this.#fish.map((index) => at(pedigree.sire[index]!));
    this.#dam = this.#fish.map((index) => at(pedigree.dam[index]!));
    this.#inbreeding = Float64Array.from(this.#fish, (index) => inbreeding[index]!);
    const first = new Map<number, number>();
    this.#elder = this.#fish.map((_, place) => {
      const s = this.#sire[place]!;
      const d = this.#dam[place]!;
      if (s < 0 || d < 0) return -1;
      const pair = s * this.#fish.length + d;
      const elder = first.get(pair);
      if (elder === undefined) first.set(pair, place);
      return elder ?? place;
    });
    this.#bySire = new Float64Array(this.#fish.length);
    this.#byDam = new Float64Array(this.#fish.length);
  }

  placeOf(fish: number): number {
    return this.#place[fish]!;
  }

  /** Partial inbreeding of every place by each source: places x sources, row-major. */
  trace(sources: readonly FounderSource[]): Float64Array {
    const count = this.#fish.length;
    const width = sources.length;
    const share = new Float64Array(count * width);
    const partial = new Float64Array(count * width);
    const variance = new Float64Array(count * width);
    const starts = new Map<number, number[]>();
    sources.forEach((source, column) => {
      const place = this.#place[source.founder]!;
      starts.set(place, [...(starts.get(place) ?? []), column]);
    });
    for (let place = 0; place < count; place++) {
      this.#inherit(place, width, share, partial, variance);
      const elder = this.#elder[place]!;
      if (elder === place) this.#climb(place, width, variance, partial);
      else if (elder >= 0) {
        partial.copyWithin(place * width, elder * width, (elder + 1) * width);
        // What the elder has through itself, its sib has not.
        for (const column of starts.get(elder) ?? []) partial[place * width + column] = 0;
      }
      for (const column of starts.get(place) ?? []) {
        const { unknownParent } = sources[column]!;
        const cell = place * width + column;
        share[cell] = unknownParent ? 0.5 : 1;
        partial[cell] = unknownParent ? 0 : this.#inbreeding[place]!;
        variance[cell] = share[cell]! + partial[cell]!;
      }
    }
    return partial;
  }

  /** Share and within-family variance of a fish by each source, from those of its parents. */
  #inherit(
    place: number,
    width: number,
    share: Float64Array,
    partial: Float64Array,
    variance: Float64Array,
  ): void {
    for (const parent of [this.#sire[place]!, this.#dam[place]!]) {
      if (parent < 0) continue;
      for (let column = 0; column < width; column++) {
        const from = parent * width + column;
        const to = place * width + column;
        share[to]! += share[from]! / 2;
        variance[to]! += (share[from]! - partial[from]!) / 4;
      }
    }
  }

  /** Sums (share in the sire) x (share in the dam) x (variance) over all ancestors, for all sources in one climb. */
  #climb(place: number, width: number, variance: Float64Array, partial: Float64Array): void {
    const bySire = this.#bySire;
    const byDam = this.#byDam;
    const s = this.#sire[place]!;
    const d = this.#dam[place]!;
    bySire[s] = 1;
    byDam[d] = 1;
    const to = place * width;
    for (let at = Math.max(s, d); at >= 0; at--) {
      const u = bySire[at]!;
      const v = byDam[at]!;
      if (u === 0 && v === 0) continue;
      bySire[at] = 0;
      byDam[at] = 0;
      const weight = (u * v) / 2;
      if (weight > 0) {
        const from = at * width;
        for (let column = 0; column < width; column++) {
          partial[to + column]! += weight * variance[from + column]!;
        }
      }
      for (const parent of [this.#sire[at]!, this.#dam[at]!]) {
        if (parent < 0) continue;
        bySire[parent]! += u / 2;
        byDam[parent]! += v / 2;
      }
    }
  }
}
