import { ancestors, NO_PARENT, pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';

/** The ancestors of a pair, cut out of a pedigree, renumbered from 0 in the same order, and joined by the pair's brood. */
export interface LocalAncestry {
  readonly pedigree: Pedigree;
  /** Local index to index in the whole pedigree, ascending. */
  readonly original: Int32Array;
  /** The pair's local indices. */
  readonly roots: readonly [sire: number, dam: number];
  /** Local index of a brood of the first two roots, the last in `pedigree` and in none of the other lists. */
  readonly brood: number;
}

/**
 * Cuts out a pair and all its ancestors, so that a question about one pair costs what its ancestry costs and not what
 * the whole pedigree costs.
 *
 * @param maxGenerations above the pair; older ancestors are left out and their young become founders.
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`.
 * Cost: linear in the ancestors found, plus their sort.
 */
export function localAncestry(
  pedigree: Pedigree,
  sire: number,
  dam: number,
  maxGenerations = Infinity,
): LocalAncestry {
  const found = new Set<number>();
  for (const root of [sire, dam]) {
    for (const ancestor of ancestors(pedigree, root, maxGenerations)) found.add(ancestor);
    found.add(root);
  }
  const original = Int32Array.from(found).sort();
  const place = new Map<number, number>();
  original.forEach((index, local) => place.set(index, local));
  const brood = original.length;
  const localParents = (parents: Int32Array, ofBrood: number): Int32Array => {
    const local = new Int32Array(brood + 1);
    original.forEach((index, at) => {
      const parent = parents[index]!;
      local[at] = place.get(parent) ?? NO_PARENT;
    });
    local[brood] = place.get(ofBrood)!;
    return local;
  };
  return {
    pedigree: pedigreeFromArrays(
      localParents(pedigree.sire, sire),
      localParents(pedigree.dam, dam),
    ),
    original,
    roots: [place.get(sire)!, place.get(dam)!],
    brood,
  };
}
