import { ancestors, NO_PARENT, pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';

/** The ancestors of a few individuals, cut out of a pedigree and renumbered from 0 in the same order. */
export interface LocalAncestry {
  readonly pedigree: Pedigree;
  /** Local index to index in the whole pedigree, ascending. */
  readonly original: Int32Array;
  /** The roots' local indices, in the order asked for. */
  readonly roots: readonly number[];
}

/**
 * Cuts out the roots and all their ancestors, so that a question about one pair costs what its ancestry costs and not what
 * the whole pedigree costs.
 *
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`.
 * Cost: linear in the ancestors found, plus their sort.
 */
export function localAncestry(pedigree: Pedigree, roots: readonly number[]): LocalAncestry {
  const found = new Set<number>();
  for (const root of roots) {
    // Asked for even when the root is in the set already: it checks the index.
    for (const ancestor of ancestors(pedigree, root)) found.add(ancestor);
    found.add(root);
  }
  const original = Int32Array.from(found).sort();
  const place = new Map<number, number>();
  original.forEach((index, local) => place.set(index, local));
  const localParent = (parent: number): number =>
    parent === NO_PARENT ? NO_PARENT : place.get(parent)!;
  return {
    pedigree: pedigreeFromArrays(
      original.map((index) => localParent(pedigree.sire[index]!)),
      original.map((index) => localParent(pedigree.dam[index]!)),
    ),
    original,
    roots: roots.map((root) => place.get(root)!),
  };
}
