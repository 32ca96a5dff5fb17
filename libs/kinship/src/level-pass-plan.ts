import type { Families } from './families.js';

/** What a {@link levelPass} would need. */
export interface LevelPassPlan {
  /** Most units live after any one level. */
  readonly peakUnits: number;
  /** Bytes of the two matrices. */
  readonly bytes: number;
  /** Matrix entries to be written. */
  readonly work: number;
}

/**
 * Foretells memory and work of the tabular pass without doing it.
 *
 * Cost: one pass over families and parents.
 */
export function levelPassPlan(families: Families): LevelPassPlan {
  const { levels, count, level, sire, dam, memberStart, members, firstUse, lastUse } = families;
  // Units by the level after which they appear, and by the level after which they are gone.
  const change = new Float64Array(levels + 1);
  const entering = new Float64Array(levels + 1);
  for (let family = 0; family < count; family++) {
    const from = memberStart[family]!;
    const to = memberStart[family + 1]!;
    if (from === to) continue;
    // Unrelated founders (taken to be all) have a row only between two uses; related ones are few.
    const isFounder = sire[family]! < 0 && dam[family]! < 0;
    let untouchedUntil = 0;
    for (let k = from; k < to; k++) {
      const parent = members[k]!;
      const first = firstUse[parent]!;
      const last = lastUse[parent]!;
      if (to - from === 1 && !isFounder) {
        untouchedUntil = last;
        continue;
      }
      if (first > untouchedUntil) untouchedUntil = first;
      if (last > first) {
        change[Math.min(first, levels)]!++;
        entering[Math.min(first, levels)]!++;
        change[Math.min(last, levels)]!--;
      }
    }
    if (isFounder) continue;
    change[level[family]!]!++;
    entering[level[family]!]!++;
    change[Math.min(untouchedUntil, levels)]!--;
  }
  let live = 0;
  let peakUnits = 0;
  let bytes = 0;
  let work = 0;
  for (let at = 0; at < levels; at++) {
    const before = live;
    live += change[at]!;
    if (live > peakUnits) peakUnits = live;
    const square = 1.1 * (live + 1) ** 2;
    if (square > bytes) bytes = square;
    const staying = live - entering[at]!;
    const rows = entering[at]! * (before + live);
    work += staying > 4 * entering[at]! ? 2 * rows : rows + live * Math.max(0, staying);
  }
  // Two matrices, each up to a quarter larger a side when fish stay on.
  return { peakUnits, bytes: 2 * 8 * bytes * 1.25 ** 2, work };
}
