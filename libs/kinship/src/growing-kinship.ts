import { NO_PARENT, pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import { founderShares } from './coancestry.js';
import { readFounderRelationship, type FounderOptions } from './founder-relationship.js';
import { inbreedingCoefficients } from './inbreeding.js';
import { KinshipError } from './kinship-error.js';
import { PairTrace, type FounderShares } from './pair-trace.js';

/** Fish added together. */
export interface AddedSpawn {
  /** Index of the first; the others follow it. */
  readonly first: number;
  readonly count: number;
  /** F of each of them. */
  readonly inbreeding: number;
}

/**
 * A pedigree that grows by spawns, with all F known at any time and nothing computed twice: young never change the F of the
 * fish before them.
 *
 * Cost of a spawn: one trace of its parents' ancestors plus its own rows; when the arrays are full they are copied once into
 * ones a quarter larger.
 * @example
 * const stock = new GrowingKinship(pedigree);
 * const spawn = stock.addSpawn(sire, dam, 300);
 * spawn.inbreeding; // of all 300
 */
export class GrowingKinship {
  #size: number;
  #sire: Int32Array<ArrayBuffer>;
  #dam: Int32Array<ArrayBuffer>;
  #inbreeding: Float64Array<ArrayBuffer>;
  #variance: Float64Array<ArrayBuffer>;
  readonly #trace = new PairTrace();

  readonly #founders: FounderShares | undefined;

  /**
   * Computes all F of the pedigree unless they are given. Founders are unrelated unless `founders` says otherwise; those added later
   * are unrelated to all.
   *
   * @throws {KinshipError} `KINSHIP_LENGTH_MISMATCH`, and for founder relationships that do not fit the pedigree.
   */
  constructor(pedigree: Pedigree, inbreeding?: Float64Array, options: FounderOptions = {}) {
    const known = inbreeding ?? inbreedingCoefficients(pedigree, options);
    const block = readFounderRelationship(pedigree, options.founders);
    this.#founders = block === undefined ? undefined : founderShares(block);
    const { size } = pedigree;
    if (known.length !== size) {
      throw new KinshipError(
        'KINSHIP_LENGTH_MISMATCH',
        `${known.length} coefficients were given for ${size} individuals.`,
      );
    }
    const room = size + (size >> 2) + 1024;
    this.#size = size;
    this.#sire = extended(pedigree.sire, Int32Array, room);
    this.#dam = extended(pedigree.dam, Int32Array, room);
    this.#inbreeding = extended(known, Float64Array, room);
    this.#variance = new Float64Array(room);
    for (let i = 0; i < size; i++) this.#variance[i] = this.#within(this.#sire[i]!, this.#dam[i]!);
    this.#trace.reserve(room);
  }

  get size(): number {
    return this.#size;
  }

  /** F of one individual. */
  inbreedingOf(index: number): number {
    this.#check(index);
    return this.#inbreeding[index]!;
  }

  /** Coancestry of two individuals; the F a spawn of theirs would have. Cost: their ancestors. */
  coancestry(a: number, b: number): number {
    this.#check(a);
    this.#check(b);
    const founders = this.#founders;
    return this.#trace.relationship(a, b, this.#sire, this.#dam, this.#variance, founders) / 2;
  }

  /**
   * Adds `count` full sibs. `NO_PARENT` stands for an unknown parent; with both unknown the fish are founders, with one they
   * are half sibs by the other.
   *
   * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for a count that is not a whole number above 0.
   */
  addSpawn(sire: number, dam: number, count: number): AddedSpawn {
    if (sire !== NO_PARENT) this.#check(sire);
    if (dam !== NO_PARENT) this.#check(dam);
    if (!Number.isInteger(count) || count < 1) {
      throw new KinshipError(
        'KINSHIP_BAD_ARGUMENT',
        `A spawn of ${count} cannot be added; use a whole number above 0.`,
      );
    }
    const inbreeding = sire < 0 || dam < 0 ? 0 : this.coancestry(sire, dam);
    const within = this.#within(sire, dam);
    const first = this.#size;
    const end = first + count;
    if (end > this.#sire.length) this.#grow(end + (end >> 2));
    this.#sire.fill(sire, first, end);
    this.#dam.fill(dam, first, end);
    this.#inbreeding.fill(inbreeding, first, end);
    this.#variance.fill(within, first, end);
    this.#size = end;
    return { first, count, inbreeding };
  }

  /** All F so far, copied. */
  inbreeding(): Float64Array {
    return this.#inbreeding.slice(0, this.#size);
  }

  /** The pedigree so far, copied; ids are indices unless given. */
  pedigree(ids?: readonly string[]): Pedigree {
    return pedigreeFromArrays(this.#sire.slice(0, this.#size), this.#dam.slice(0, this.#size), ids);
  }

  #within(sire: number, dam: number): number {
    const bySire = sire < 0 ? -1 : this.#inbreeding[sire]!;
    const byDam = dam < 0 ? -1 : this.#inbreeding[dam]!;
    return 0.5 - 0.25 * (bySire + byDam);
  }

  #grow(room: number): void {
    this.#sire = extended(this.#sire, Int32Array, room);
    this.#dam = extended(this.#dam, Int32Array, room);
    this.#inbreeding = extended(this.#inbreeding, Float64Array, room);
    this.#variance = extended(this.#variance, Float64Array, room);
    this.#trace.reserve(room);
  }

  #check(index: number): void {
    if (Number.isInteger(index) && index >= 0 && index < this.#size) return;
    throw new KinshipError(
      'KINSHIP_BAD_INDEX',
      `There is no individual ${index}; indices run from 0 to ${this.#size - 1}.`,
    );
  }
}

function extended<T extends Int32Array<ArrayBuffer> | Float64Array<ArrayBuffer>>(
  array: ArrayLike<number>,
  make: new (length: number) => T,
  room: number,
): T {
  const larger = new make(room);
  larger.set(array);
  return larger;
}
