import { NO_PARENT, type Pedigree } from '@linewright/pedigree';

/**
 * A pedigree folded to what decides inbreeding: full-sib families and the fish that have young.
 *
 * A family is all young of one sire and one dam, both known; a fish with a parent unknown is a family of its own, and only
 * counted when it has young. Parents are numbered apart, in their order in the pedigree.
 */
export interface Families {
  readonly count: number;
  /** Family of each individual; -1 for one with a parent unknown and no young (its F is 0). */
  readonly familyOf: Int32Array;
  /** Parents of each family, as parent numbers; -1 unknown. */
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  /** Longest path to a founder: above every level where a member is a parent. */
  readonly level: Int32Array;
  readonly levels: number;
  /** Families sorted by level; those of level g are `order[levelStart[g]]` to `order[levelStart[g + 1] - 1]`. */
  readonly order: Int32Array;
  readonly levelStart: Int32Array;
  readonly parentCount: number;
  /** Individual of each parent number, and parent number of each individual (-1 for none). */
  readonly parentFish: Int32Array;
  readonly parentNumber: Int32Array;
  readonly parentFamily: Int32Array;
  /** First and last level at which each parent has young. */
  readonly firstUse: Int32Array;
  readonly lastUse: Int32Array;
  /** Members of each family that have young: `members[memberStart[f]]` to `members[memberStart[f + 1] - 1]`. */
  readonly memberStart: Int32Array;
  readonly members: Int32Array;
}

/**
 * Folds a pedigree. `kept` individuals count as parents still to be used after the last level.
 *
 * Cost: three passes over the pedigree and one hash lookup where neighbours are not full sibs.
 */
export function foldFamilies(pedigree: Pedigree, kept?: ArrayLike<number>): Families {
  const { size } = pedigree;
  const parentNumber = markParents(pedigree, kept);
  const { familyOf, count, parentCount, sire, dam, level } = numberFamilies(pedigree, parentNumber);
  const parentFish = new Int32Array(parentCount);
  const parentFamily = new Int32Array(parentCount);
  for (let i = 0; i < size; i++) {
    const p = parentNumber[i]!;
    if (p < 0) continue;
    parentFish[p] = i;
    parentFamily[p] = familyOf[i]!;
  }
  const firstUse = new Int32Array(parentCount).fill(0x7fffffff);
  const lastUse = new Int32Array(parentCount).fill(-1);
  for (let f = 0; f < count; f++) {
    const at = level[f]!;
    for (const p of [sire[f]!, dam[f]!]) {
      if (p < 0) continue;
      if (at < firstUse[p]!) firstUse[p] = at;
      if (at > lastUse[p]!) lastUse[p] = at;
    }
  }
  let deepest = -1;
  for (let f = 0; f < count; f++) if (level[f]! > deepest) deepest = level[f]!;
  for (let k = 0; k < (kept?.length ?? 0); k++) {
    const p = parentNumber[kept![k]!]!;
    lastUse[p] = deepest + 1;
    if (firstUse[p] === 0x7fffffff) firstUse[p] = deepest + 1;
  }
  const { order, start: levelStart } = sortByKey(level, count, deepest + 1);
  const { order: members, start: memberStart } = sortByKey(parentFamily, parentCount, count);
  return {
    count,
    familyOf,
    sire,
    dam,
    level,
    levels: deepest + 1,
    order,
    levelStart,
    parentCount,
    parentFish,
    parentNumber,
    parentFamily,
    firstUse,
    lastUse,
    memberStart,
    members,
  };
}

/** 1 where an individual has young or is kept, else -1. */
function markParents(pedigree: Pedigree, kept: ArrayLike<number> | undefined): Int32Array {
  const { size, sire, dam } = pedigree;
  const mark = new Int32Array(size).fill(-1);
  let lastSire = NO_PARENT;
  let lastDam = NO_PARENT;
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    if (s !== lastSire) {
      if (s >= 0) mark[s] = 1;
      lastSire = s;
    }
    if (d !== lastDam) {
      if (d >= 0) mark[d] = 1;
      lastDam = d;
    }
  }
  for (let k = 0; k < (kept?.length ?? 0); k++) mark[kept![k]!] = 1;
  return mark;
}

/** Numbers parents and families in one pass; turns the marks of `parentNumber` into numbers. */
function numberFamilies(pedigree: Pedigree, parentNumber: Int32Array) {
  const { size, sire, dam } = pedigree;
  const familyOf = new Int32Array(size);
  const families = new FamilyTable();
  let parentCount = 0;
  let lastSire = NO_PARENT;
  let lastDam = NO_PARENT;
  let lastFamily = -1;
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    const isParent = parentNumber[i] === 1;
    if (isParent) parentNumber[i] = parentCount++;
    const known = s >= 0 && d >= 0;
    if (known && s === lastSire && d === lastDam) {
      familyOf[i] = lastFamily;
      continue;
    }
    if (!known && !isParent) {
      familyOf[i] = -1;
      continue;
    }
    const ps = s < 0 ? -1 : parentNumber[s]!;
    const pd = d < 0 ? -1 : parentNumber[d]!;
    const above = s < 0 ? -1 : families.level[familyOf[s]!]!;
    const beside = d < 0 ? -1 : families.level[familyOf[d]!]!;
    const level = 1 + (above > beside ? above : beside);
    familyOf[i] = known ? families.findOrAdd(ps, pd, level) : families.add(ps, pd, level);
    if (known) {
      lastSire = s;
      lastDam = d;
      lastFamily = familyOf[i]!;
    }
  }
  const { count, level } = families;
  return { familyOf, count, parentCount, sire: families.sire, dam: families.dam, level };
}

/** Families by number, found again by their two parents through a table of open addressing. */
class FamilyTable {
  sire = new Int32Array(1024);
  dam = new Int32Array(1024);
  level = new Int32Array(1024);
  count = 0;
  #table = new Int32Array(4096);
  #shift = 32 - Math.log2(4096);

  /** The family of two known parents. Its level follows from them, and so is the same each time. */
  findOrAdd(sire: number, dam: number, level: number): number {
    const table = this.#table;
    let slot = slotOf(this.#shift, sire, dam);
    for (;;) {
      const family = table[slot]! - 1;
      if (family < 0) break;
      if (this.sire[family] === sire && this.dam[family] === dam) return family;
      slot = (slot + 1) & (table.length - 1);
    }
    const family = this.add(sire, dam, level);
    // A larger table has another place for it.
    if (table !== this.#table) slot = freeSlot(this.#table, this.#shift, sire, dam);
    this.#table[slot] = family + 1;
    return family;
  }

  /** One more family, which nothing finds again. */
  add(sire: number, dam: number, level: number): number {
    if (this.count === this.sire.length) this.#grow();
    const family = this.count++;
    this.sire[family] = sire;
    this.dam[family] = dam;
    this.level[family] = level;
    return family;
  }

  #grow(): void {
    const capacity = 2 * this.sire.length;
    this.sire = grown(this.sire, capacity);
    this.dam = grown(this.dam, capacity);
    this.level = grown(this.level, capacity);
    this.#table = new Int32Array(4 * capacity);
    this.#shift = 32 - Math.log2(this.#table.length);
    rehash(this.#table, this.#shift, this.sire, this.dam, this.count);
  }
}

const slotOf = (shift: number, sire: number, dam: number): number =>
  (Math.imul(sire, 0x9e3779b1) ^ Math.imul(dam, 0x85ebca6b)) >>> shift;

function grown(array: Int32Array<ArrayBuffer>, capacity: number): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(capacity);
  larger.set(array);
  return larger;
}

function freeSlot(table: Int32Array, shift: number, sire: number, dam: number): number {
  let slot = slotOf(shift, sire, dam);
  while (table[slot] !== 0) slot = (slot + 1) & (table.length - 1);
  return slot;
}

function rehash(
  table: Int32Array,
  shift: number,
  sire: Int32Array,
  dam: Int32Array,
  count: number,
): void {
  for (let f = 0; f < count; f++) {
    if (sire[f]! >= 0 && dam[f]! >= 0) table[freeSlot(table, shift, sire[f]!, dam[f]!)] = f + 1;
  }
}

/** Counting sort of 0..count-1 by key, stable. */
function sortByKey(key: Int32Array, count: number, keys: number) {
  const start = new Int32Array(keys + 2);
  for (let k = 0; k < count; k++) start[key[k]! + 2]!++;
  for (let k = 2; k < start.length; k++) start[k]! += start[k - 1]!;
  const order = new Int32Array(count);
  // The bucket starts are kept one place to the right, so that filling moves them to where they belong.
  for (let k = 0; k < count; k++) order[start[key[k]! + 1]!++] = k;
  return { order, start: start.subarray(0, keys + 1) };
}
