import { coancestryBlock } from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';
import type { PairingCandidate } from '../candidate.js';
import { MatingError } from '../mating-error.js';

/** F of a set of possible broods. */
export interface InbreedingRange {
  readonly mean: number;
  readonly least: number;
  readonly most: number;
}

/** F of the first cross over the line's fish of the other sex, and the mate with the least. */
export type FirstCross = InbreedingRange & { readonly bestMateId: string };

/** Coancestries within the line, worked out once. */
export class LineFigures {
  readonly fish: readonly PairingCandidate[];
  readonly indices: Int32Array;
  readonly size: number;
  readonly withinLine: number | null;
  readonly #block: Float64Array;
  /** Sum of each fish's coancestries with the whole line, itself included. */
  readonly #sums: Float64Array;

  constructor(pedigree: Pedigree, line: readonly PairingCandidate[]) {
    if (line.length === 0) {
      throw new MatingError(
        'MATING_TOO_FEW_FISH',
        'line',
        'The line has no fish in use. Name at least one.',
      );
    }
    this.fish = line.toSorted((a, b) => (a.id < b.id ? -1 : 1));
    this.indices = indicesOf(pedigree, this.fish);
    this.size = this.fish.length;
    this.#block = coancestryBlock(pedigree, this.indices, this.indices);
    this.#sums = Float64Array.from(this.fish, (_, k) => {
      return this.#block
        .subarray(k * this.size, (k + 1) * this.size)
        .reduce((sum, value) => sum + value, 0);
    });
    const males = this.#ofSex('male');
    const females = this.#ofSex('female');
    const own = males.flatMap((m) => females.map((f) => this.#between(m, f)));
    this.withinLine = own.length === 0 ? null : average(own);
  }

  find(id: string | undefined): PairingCandidate | undefined {
    return this.fish.find((one) => one.id === id);
  }

  /** Positions of the line's fish of the other sex. */
  matesOf({ sex }: PairingCandidate): readonly number[] {
    return sex === 'unknown' ? [] : this.#ofSex(sex === 'male' ? 'female' : 'male');
  }

  firstCross(withLine: Float64Array, mates: readonly number[]): FirstCross | null {
    const [first] = mates;
    if (first === undefined) return null;
    const figures = mates.map((mate) => withLine[mate] ?? 0);
    const least = Math.min(...figures);
    const best = mates.find((mate) => withLine[mate] === least) ?? first;
    return {
      mean: average(figures),
      least,
      most: Math.max(...figures),
      bestMateId: this.fish[best]?.id ?? '',
    };
  }

  /** Sums over the line's fish are worked out once, and each mate's own part is taken off again. */
  returnToLine(withLine: Float64Array, mates: readonly number[]): number | null {
    const broods = mates.length * (this.size - 1);
    if (broods === 0) return null;
    const partnerSum = withLine.reduce((sum, value) => sum + value, 0);
    let total = 0;
    for (const mate of mates) {
      const partnerPart = partnerSum - (withLine[mate] ?? 0);
      const matePart = (this.#sums[mate] ?? 0) - this.#between(mate, mate);
      total += (partnerPart + matePart) / 2;
    }
    return total / broods;
  }

  /** Pairs of two others of the line than the mate: from sums over the whole line, less what the mate and each fish with itself add. */
  returnTwice(withLine: Float64Array, mates: readonly number[]): number | null {
    const others = this.size - 1;
    if (mates.length === 0 || others < 2) return null;
    const partnerSum = withLine.reduce((sum, value) => sum + value, 0);
    const whole = this.#sums.reduce((sum, value) => sum + value, 0);
    const selves = this.fish.reduce((sum, _, k) => sum + this.#between(k, k), 0);
    let total = 0;
    for (const mate of mates) {
      const self = this.#between(mate, mate);
      const mateSum = this.#sums[mate] ?? 0;
      const crossPart = partnerSum - (withLine[mate] ?? 0) + mateSum - self;
      const linePart = whole - 2 * mateSum + self - (selves - self);
      total += crossPart / others / 4 + linePart / (others * (others - 1)) / 2;
    }
    return total / mates.length;
  }

  returnToParent(withLine: Float64Array, mates: readonly number[]): number | null {
    if (mates.length === 0) return null;
    return average(mates.map((mate) => ((withLine[mate] ?? 0) + this.#between(mate, mate)) / 2));
  }

  #ofSex(sex: 'male' | 'female'): number[] {
    return this.fish.flatMap((one, k) => (one.sex === sex ? [k] : []));
  }

  #between(a: number, b: number): number {
    return this.#block[a * this.size + b] ?? 0;
  }
}

/**
 * Places of fish in the pedigree.
 *
 * @throws MatingError MATING_UNKNOWN_FISH.
 */
export function indicesOf(pedigree: Pedigree, fish: readonly PairingCandidate[]): Int32Array {
  return Int32Array.from(fish, ({ id }) => {
    if (pedigree.has(id)) return pedigree.indexOf(id);
    throw new MatingError(
      'MATING_UNKNOWN_FISH',
      id,
      `Fish ${id} is not in the pedigree. Add it, or remove it here.`,
    );
  });
}

/** Mean of some figures, of which there must be one. */
export function average(figures: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < figures.length; k++) sum += figures[k] ?? 0;
  return sum / figures.length;
}
