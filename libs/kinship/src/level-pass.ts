import type { Families } from './families.js';
import type { FounderBlock } from './founder-relationship.js';
import { combineRows, copyBlock, gatherPairs, gatherRow } from './row-kernels.js';

/** What the pass leaves behind. */
export interface LevelPassResult {
  /** Inbreeding coefficient of each family. */
  readonly inbreeding: Float64Array;
  /** Relationship of two parents still live at the end (the kept ones). */
  relationship(first: number, second: number): number;
}

/**
 * The tabular method, level by level, on relationships between *units* instead of fish.
 *
 * A unit is a fish, or all full sibs that have had no young yet: they share one row, whose diagonal holds the relationship
 * of two different sibs. A row stays only while a fish of its unit still has young to come. At each level a new unit's
 * row is half its sire's plus half its dam's row; a fish that breeds again later is split off its sibs. Where the recursion
 * takes two sibs for different though they are one fish (half sibs through it, its own young), the difference
 * delta = (1 + F) - a(two sibs) is put right. Unrelated founders start as one unit whose row is all zero.
 *
 * Emik LO & Terrill CE (1949) J Hered 40:51-55 for the tabular method. Matrices are grown once and swapped; a level that
 * changes little is worked in place. Cost: for each level, units entering x units live; memory as {@link levelPassPlan} says.
 */
export function levelPass(families: Families, block: FounderBlock | undefined): LevelPassResult {
  const pass = new LevelPass(families, block);
  for (let level = 0; level < families.levels; level++) pass.advance(level);
  return pass;
}

class LevelPass implements LevelPassResult {
  readonly inbreeding: Float64Array;
  readonly #families: Families;
  readonly #block: FounderBlock | undefined;
  /** Relationships between units, `#stride` doubles a row. Slot 0 is all zero: unknown parents, unrelated founders. */
  #matrix: Float64Array<ArrayBuffer> = new Float64Array(16);
  #spare: Float64Array<ArrayBuffer> = new Float64Array(0);
  #stride = 4;
  /** One more than the highest slot in use. */
  #high = 1;
  /** Live members of the unit in each slot; 0 is a free slot. */
  #members: Int32Array<ArrayBuffer> = Int32Array.of(0x7fffffff, 0, 0, 0);
  #unitAt: Int32Array<ArrayBuffer> = new Int32Array(4);
  /** Slot of unit f (a family) or of unit families + p (parent p on its own). */
  readonly #slotOf: Int32Array;
  readonly #alone: Uint8Array;
  readonly #seenAt: Int32Array;
  #row = new Float64Array(4);
  // Units entering at the level at hand: their unit number and the slots they come from.
  #entering = 0;
  #unit: Int32Array<ArrayBuffer> = new Int32Array(4);
  #from: Int32Array<ArrayBuffer> = new Int32Array(4);
  #with: Int32Array<ArrayBuffer> = new Int32Array(4);
  #slot: Int32Array<ArrayBuffer> = new Int32Array(4);
  // Shares of parents that differ from their sibs: linked lists by parent.
  readonly #firstShare: Int32Array;
  readonly #sharers: number[] = [];
  readonly #shareNext: number[] = [];
  readonly #shareEntrant: number[] = [];
  readonly #shareWeight: number[] = [];
  readonly #shareDelta: number[] = [];
  readonly #dying: number[] = [];

  constructor(families: Families, block: FounderBlock | undefined) {
    this.#families = families;
    this.#block = block;
    this.inbreeding = new Float64Array(families.count);
    this.#slotOf = new Int32Array(families.count + families.parentCount);
    this.#alone = new Uint8Array(families.parentCount);
    this.#seenAt = new Int32Array(families.parentCount).fill(-1);
    this.#firstShare = new Int32Array(families.parentCount).fill(-1);
  }

  relationship(first: number, second: number): number {
    if (first === second) return this.#own(first);
    return this.#matrix[this.#slotFor(first) * this.#stride + this.#slotFor(second)]!;
  }

  advance(level: number): void {
    this.#setInbreeding(level);
    this.#collectEntrants(level);
    if (this.#entering === 0) {
      this.#bury();
      return;
    }
    let staying = 0;
    let free = this.#members.length - this.#high;
    for (let slot = 0; slot < this.#high; slot++) {
      if (this.#members[slot]! > 0) staying++;
      else free++;
    }
    free -= this.#dying.length;
    if (staying > 4 * this.#entering && free >= this.#entering) this.#enterInPlace();
    else this.#rebuild(staying);
    this.#correctShared();
    this.#settle(level);
    this.#bury();
  }

  #own(parent: number): number {
    return 1 + this.inbreeding[this.#families.parentFamily[parent]!]!;
  }

  #slotFor(parent: number): number {
    const { count, parentFamily } = this.#families;
    return this.#slotOf[this.#alone[parent] === 1 ? count + parent : parentFamily[parent]!]!;
  }

  #setInbreeding(level: number): void {
    const { order, levelStart, sire, dam } = this.#families;
    for (let k = levelStart[level]!; k < levelStart[level + 1]!; k++) {
      const family = order[k]!;
      const s = sire[family]!;
      const d = dam[family]!;
      if (s >= 0 && d >= 0) this.inbreeding[family] = this.relationship(s, d) / 2;
    }
    if (level > 0 || this.#block === undefined) return;
    const { founders, relationship } = this.#block;
    founders.forEach((fish, position) => {
      const family = this.#families.familyOf[fish]!;
      if (family < 0) return;
      this.inbreeding[family] = relationship[position * founders.length + position]! - 1;
    });
  }

  #collectEntrants(level: number): void {
    const { order, levelStart, sire, dam, memberStart } = this.#families;
    const from = levelStart[level]!;
    const to = levelStart[level + 1]!;
    this.#entering = 0;
    this.#reserve(3 * (to - from));
    for (let k = from; k < to; k++) {
      const family = order[k]!;
      if (memberStart[family] === memberStart[family + 1]) continue;
      const s = sire[family]!;
      const d = dam[family]!;
      // An unrelated founder needs no row of its own before it has young at two levels.
      if (s < 0 && d < 0 && !this.#isRelatedFounder(family)) continue;
      const entrant = this.#entering++;
      this.#unit[entrant] = family;
      this.#from[entrant] = s < 0 ? 0 : this.#slotFor(s);
      this.#with[entrant] = d < 0 ? 0 : this.#slotFor(d);
      if (s >= 0) this.#share(s, entrant, 0.5);
      if (d >= 0) this.#share(d, entrant, 0.5);
    }
    // Only now may parents leave their sibs' row or die: the rows above were found with the old slots.
    const born = this.#entering;
    for (let k = from; k < to; k++) {
      const family = order[k]!;
      this.#useParent(sire[family]!, level);
      this.#useParent(dam[family]!, level);
    }
    for (let entrant = born; entrant < this.#entering; entrant++) {
      this.#alone[this.#unit[entrant]! - this.#families.count] = 1;
    }
  }

  #useParent(parent: number, level: number): void {
    if (parent < 0 || this.#seenAt[parent] === level) return;
    this.#seenAt[parent] = level;
    const slot = this.#slotFor(parent);
    const last = this.#families.lastUse[parent] === level;
    if (!last && this.#alone[parent] === 1) return;
    if (--this.#members[slot]! === 0) this.#dying.push(slot);
    if (last) return;
    const entrant = this.#entering++;
    this.#unit[entrant] = this.#families.count + parent;
    this.#from[entrant] = slot;
    this.#with[entrant] = slot;
    this.#share(parent, entrant, 1);
  }

  #isRelatedFounder(family: number): boolean {
    if (this.#block === undefined) return false;
    const { members, memberStart, parentFish } = this.#families;
    return this.#block.positionOf.has(parentFish[members[memberStart[family]!]!]!);
  }

  /** Notes that an entrant descends from (or is) a fish that shares its row with sibs. */
  #share(parent: number, entrant: number, weight: number): void {
    const slot = this.#slotFor(parent);
    const delta = this.#own(parent) - this.#matrix[slot * this.#stride + slot]!;
    if (delta === 0) return;
    if (this.#firstShare[parent]! < 0) this.#sharers.push(parent);
    this.#shareNext.push(this.#firstShare[parent]!);
    this.#shareEntrant.push(entrant);
    this.#shareWeight.push(weight);
    this.#shareDelta.push(delta);
    this.#firstShare[parent] = this.#shareNext.length - 1;
  }

  /** Adds the entrants to the matrix as it stands, in free slots. */
  #enterInPlace(): void {
    const { length } = this.#members;
    const stride = this.#stride;
    const matrix = this.#matrix;
    const oldHigh = this.#high;
    const dying = new Set(this.#dying);
    let slot = 1;
    for (let entrant = 0; entrant < this.#entering; entrant++) {
      while (slot < length && (this.#members[slot]! > 0 || dying.has(slot))) slot++;
      this.#slot[entrant] = slot++;
    }
    if (slot > this.#high) this.#high = slot;
    for (let entrant = 0; entrant < this.#entering; entrant++) {
      const start = this.#slot[entrant]! * stride;
      const from = this.#from[entrant]! * stride;
      combineRows(matrix, from, this.#with[entrant]! * stride, matrix, start, oldHigh);
    }
    for (let entrant = 0; entrant < this.#entering; entrant++) {
      const start = this.#slot[entrant]! * stride;
      for (let other = 0; other < this.#entering; other++) {
        const half = matrix[start + this.#from[other]!]! + matrix[start + this.#with[other]!]!;
        matrix[start + this.#slot[other]!] = half / 2;
      }
    }
    for (let row = 0; row < oldHigh; row++) {
      if (this.#members[row] === 0) continue;
      for (let entrant = 0; entrant < this.#entering; entrant++) {
        const column = this.#slot[entrant]!;
        matrix[row * stride + column] = matrix[column * stride + row]!;
      }
    }
  }

  /** Writes those that stay and those that enter into the spare matrix, closed up, and swaps. */
  #rebuild(staying: number): void {
    const entering = this.#entering;
    const size = staying + entering;
    // Room for later levels to work in place, where that is likely.
    const stride = staying > entering ? size + (size >> 2) + 4 : size;
    if (this.#spare.length < stride * stride) {
      this.#spare = new Float64Array(Math.ceil(stride * stride * 1.1));
    }
    const target = this.#spare;
    const source = this.#matrix;
    const kept = new Int32Array(staying);
    let next = 0;
    for (let slot = 0; slot < this.#high; slot++) {
      if (this.#members[slot]! > 0) kept[next++] = slot;
    }
    if (staying > 1) copyBlock(source, this.#stride, kept, target, stride);
    else target[0] = 0;
    if (this.#row.length < this.#high) this.#row = new Float64Array(this.#high * 2);
    const row = this.#row;
    for (let entrant = 0; entrant < entering; entrant++) {
      const from = this.#from[entrant]! * this.#stride;
      combineRows(source, from, this.#with[entrant]! * this.#stride, row, 0, this.#high);
      const start = (staying + entrant) * stride;
      gatherRow(row, kept, staying, target, start);
      gatherPairs(row, this.#from, this.#with, entering, target, start + staying);
      this.#slot[entrant] = staying + entrant;
    }
    for (let k = 0; k < staying; k++) {
      for (let slot = staying; slot < size; slot++) {
        target[k * stride + slot] = target[slot * stride + k]!;
      }
    }
    this.#adopt(kept, size, stride);
  }

  #adopt(kept: Int32Array, size: number, stride: number): void {
    const members = new Int32Array(stride);
    const unitAt = new Int32Array(stride);
    for (let slot = 0; slot < kept.length; slot++) {
      members[slot] = this.#members[kept[slot]!]!;
      const unit = this.#unitAt[kept[slot]!]!;
      unitAt[slot] = unit;
      if (slot > 0) this.#slotOf[unit] = slot;
    }
    this.#members = members;
    this.#unitAt = unitAt;
    [this.#matrix, this.#spare] = [this.#spare, this.#matrix];
    this.#stride = stride;
    this.#high = size;
    // The old slots are gone with the old matrix.
    this.#dying.length = 0;
  }

  #correctShared(): void {
    const matrix = this.#matrix;
    for (const parent of this.#sharers) {
      const first = this.#firstShare[parent]!;
      for (let a = first; a >= 0; a = this.#shareNext[a]!) {
        const row = this.#slot[this.#shareEntrant[a]!]! * this.#stride;
        const weight = this.#shareWeight[a]! * this.#shareDelta[a]!;
        for (let b = first; b >= 0; b = this.#shareNext[b]!) {
          matrix[row + this.#slot[this.#shareEntrant[b]!]!]! += weight * this.#shareWeight[b]!;
        }
      }
      this.#firstShare[parent] = -1;
    }
    this.#sharers.length = 0;
    this.#shareNext.length = 0;
    this.#shareEntrant.length = 0;
    this.#shareWeight.length = 0;
    this.#shareDelta.length = 0;
  }

  /** Gives the entrants their slots, and the diagonal of those that stand alone its own value. */
  #settle(level: number): void {
    const { count, memberStart, members } = this.#families;
    for (let entrant = 0; entrant < this.#entering; entrant++) {
      const unit = this.#unit[entrant]!;
      const slot = this.#slot[entrant]!;
      this.#unitAt[slot] = unit;
      this.#slotOf[unit] = slot;
      if (unit >= count) {
        this.#members[slot] = 1;
        continue;
      }
      const size = memberStart[unit + 1]! - memberStart[unit]!;
      this.#members[slot] = size;
      if (size > 1) continue;
      const parent = members[memberStart[unit]!]!;
      this.#alone[parent] = 1;
      this.#slotOf[count + parent] = slot;
      this.#unitAt[slot] = count + parent;
      this.#matrix[slot * this.#stride + slot] = 1 + this.inbreeding[unit]!;
    }
    if (level === 0 && this.#block !== undefined) this.#relateFounders(this.#block);
  }

  #relateFounders({ founders, relationship }: FounderBlock): void {
    const { parentNumber } = this.#families;
    const slots = Array.from(founders, (fish) => {
      const parent = parentNumber[fish]!;
      return parent < 0 ? -1 : this.#slotFor(parent);
    });
    slots.forEach((slot, a) => {
      slots.forEach((other, b) => {
        if (slot < 0 || other < 0) return;
        this.#matrix[slot * this.#stride + other] = relationship[a * slots.length + b]!;
      });
    });
  }

  #bury(): void {
    // Members of a dead slot are 0 already: from the next level on it counts as free.
    this.#dying.length = 0;
  }

  #reserve(entrants: number): void {
    if (this.#unit.length >= entrants) return;
    const room = 2 * entrants;
    this.#unit = new Int32Array(room);
    this.#from = new Int32Array(room);
    this.#with = new Int32Array(room);
    this.#slot = new Int32Array(room);
  }
}
