import { NO_PARENT, type Pedigree } from './pedigree.js';

/** Young of every individual in two flat arrays: those of `i` are `young[start[i]]` to `young[start[i + 1] - 1]`. */
export interface OffspringLists {
  readonly start: Int32Array;
  readonly young: Int32Array;
}

/**
 * Young of every individual, ascending. A young of one parent given twice is listed once.
 *
 * Cost: two passes (a counting sort).
 */
export function offspringLists(pedigree: Pedigree): OffspringLists {
  const { size, sire, dam } = pedigree;
  const start = new Int32Array(size + 1);
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    if (s !== NO_PARENT) start[s + 1]!++;
    if (d !== NO_PARENT && d !== s) start[d + 1]!++;
  }
  for (let i = 0; i < size; i++) start[i + 1]! += start[i]!;
  const next = start.slice(0, size);
  const young = new Int32Array(start[size]!);
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    if (s !== NO_PARENT) young[next[s]!++] = i;
    if (d !== NO_PARENT && d !== s) young[next[d]!++] = i;
  }
  return { start, young };
}
