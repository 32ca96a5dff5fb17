import { isRecorded, type Pedigree } from './pedigree.js';
import { checkIndex, checkWhole } from './checks.js';

export interface HiddenOptions {
  /** Whether hidden parents count as well. */
  readonly hiddenCount?: boolean;
}

const parentCounts =
  (pedigree: Pedigree, { hiddenCount }: HiddenOptions) =>
  (parent: number): boolean =>
    hiddenCount === true ? parent >= 0 : isRecorded(pedigree, parent);

/**
 * Longest path of each individual to a founder, in generations: 0 for a founder, and for a fish whose parents are all hidden
 * unless `hiddenCount` is true.
 *
 * Cost: one pass.
 */
export function generationDepth(pedigree: Pedigree, options: HiddenOptions = {}): Int32Array {
  const { size, sire, dam } = pedigree;
  const depth = new Int32Array(size);
  const counts = parentCounts(pedigree, options);
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    const above = counts(s) ? depth[s]! : -1;
    const beside = counts(d) ? depth[d]! : -1;
    depth[i] = 1 + (above > beside ? above : beside);
  }
  return depth;
}

/**
 * Complete generation equivalents of each individual: the sum over its known ancestors of (1/2)^n, n the generations
 * between them (an ancestor counts once for each line of descent).
 *
 * Equals the number of generations when every ancestor is known down to unrelated founders. Computed as
 * g = ((1 + g_sire) + (1 + g_dam)) / 2, an unknown parent adding nothing, nor a hidden one unless `hiddenCount` is true: what
 * is asked then is not how much is known, but over how many generations F could rise.
 * Source: Maignel L, Boichard D & Verrier E (1996) Interbull Bulletin 14:49-54 (from memory; confirmed by independent
 * computation). Cost: one pass.
 */
export function completeGenerationEquivalents(
  pedigree: Pedigree,
  options: HiddenOptions = {},
): Float64Array {
  const { size, sire, dam } = pedigree;
  const equivalents = new Float64Array(size);
  const counts = parentCounts(pedigree, options);
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    const bySire = counts(s) ? 1 + equivalents[s]! : 0;
    const byDam = counts(d) ? 1 + equivalents[d]! : 0;
    equivalents[i] = (bySire + byDam) / 2;
  }
  return equivalents;
}

/**
 * Share of an individual's ancestor places that is known, generation by generation: element 0 for its parents (of 2),
 * element 1 for its grandparents (of 4), and so on. Their sum over all generations is the complete generation equivalents.
 *
 * Cost: the distinct ancestors of each generation asked for; stops where nothing is known any more (zeros follow).
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`, `PEDIGREE_BAD_ARGUMENT`.
 */
export function completenessByGeneration(
  pedigree: Pedigree,
  individual: number,
  generations: number,
): Float64Array {
  checkIndex(pedigree, individual);
  checkWhole('generations', generations);
  const { sire, dam } = pedigree;
  const known = new Float64Array(generations);
  let places = new Map<number, number>([[individual, 1]]);
  for (let generation = 0; generation < generations && places.size > 0; generation++) {
    const above = new Map<number, number>();
    let total = 0;
    for (const [young, share] of places) {
      for (const parent of [sire[young]!, dam[young]!]) {
        if (!isRecorded(pedigree, parent)) continue;
        above.set(parent, (above.get(parent) ?? 0) + share / 2);
        total += share / 2;
      }
    }
    known[generation] = total;
    places = above;
  }
  return known;
}
