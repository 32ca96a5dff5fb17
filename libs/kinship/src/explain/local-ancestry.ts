import { ancestors, NO_PARENT, pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import type { FounderBlock, FounderRelationship } from '../founder-relationship.js';

/**
 * The ancestors of a pair, cut out of a pedigree, renumbered from 0 in the same order, and joined by the pair's brood. Founders
 * with given coancestries come before all others.
 */
export interface LocalAncestry {
  readonly pedigree: Pedigree;
  /** Local index to index in the whole pedigree. */
  readonly original: Int32Array;
  /** The pair's local indices. */
  readonly roots: readonly [sire: number, dam: number];
  /** Local index of a brood of the first two roots, the last in `pedigree` and in none of the other lists. */
  readonly brood: number;
  /** What is given of the founders here, which are the local indices 0 to its length less one. */
  readonly founders: FounderRelationship | undefined;
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
  block?: FounderBlock,
): LocalAncestry {
  const found = new Set<number>();
  for (const root of [sire, dam]) {
    for (const ancestor of ancestors(pedigree, root, maxGenerations)) found.add(ancestor);
    found.add(root);
  }
  // Climbing goes up from the higher index, so related founders have to be the last that it comes to.
  const given = (block?.founders ?? new Int32Array(0)).filter((founder) => found.delete(founder));
  const original = new Int32Array(given.length + found.size);
  original.set(given);
  original.set(Int32Array.from(found).sort(), given.length);
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
    founders: block === undefined || given.length === 0 ? undefined : among(given, block),
  };
}

function among(given: Int32Array, { positionOf, founders, relationship, areGroups }: FounderBlock) {
  const positions = Array.from(given, (founder) => positionOf.get(founder)!);
  return {
    founders: positions.map((_, local) => local),
    coancestry: positions.flatMap((a) =>
      positions.map((b) => relationship[a * founders.length + b]! / 2),
    ),
    areGroups,
  };
}
