import { normals } from '@linewright/merit';
import { pedigreeFromArrays, type Pedigree, seededChance } from '@linewright/pedigree';

/** Seeded numbers: uniform from 0 to 1, and standard normal. */
export class Chance {
  readonly next: () => number;
  readonly normal: () => number;
  constructor(seed: number) {
    this.next = seededChance(seed);
    this.normal = normals(this.next);
  }
  below(count: number): number {
    return Math.floor(this.next() * count);
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
