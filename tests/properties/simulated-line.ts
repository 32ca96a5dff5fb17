import { pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';

/** Seeded numbers: uniform from 0 to 1, and standard normal by Box and Muller. */
export class Chance {
  #state: number;
  constructor(seed: number) {
    this.#state = seed | 0;
  }
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }
  below(count: number): number {
    return Math.floor(this.next() * count);
  }
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }
}

/** A pedigree in which anyone born before may be a parent, so that it is full of loops; some parents are unknown. */
export function tangledPedigree(size: number, founders: number, chance: Chance): Pedigree {
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  for (let i = founders; i < size; i++) {
    const from = Math.max(0, i - 12);
    sire[i] = chance.below(10) === 0 ? -1 : from + chance.below(i - from);
    dam[i] = chance.below(10) === 0 ? -1 : from + chance.below(i - from);
    // Nobody is both parents.
    if (sire[i] === dam[i]) dam[i] = -1;
  }
  return pedigreeFromArrays(sire, dam);
}
