import { createHash } from 'node:crypto';
import { type Pedigree, pedigreeFromArrays, subset, withAncestors } from '@linewright/pedigree';

/** Some fish with all their ancestors, as it passes between threads. */
export interface PedigreePart {
  readonly ids: readonly string[];
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  /** Marks those that stand for parents nobody knows. */
  readonly hidden?: Uint8Array;
}

/** The part that these fish need, and where each of its fish stands in the whole. */
export const pedigreePart = (
  pedigree: Pedigree,
  fishIds: readonly string[],
): { readonly part: PedigreePart; readonly places: Int32Array } => {
  const places = withAncestors(
    pedigree,
    fishIds.map((id) => pedigree.indexOf(id)),
  );
  const { ids, sire, dam, hidden } = subset(pedigree, places);
  return { part: { ids, sire, dam, ...(hidden && { hidden }) }, places };
};

export const pedigreeOfPart = ({ ids, sire, dam, hidden }: PedigreePart): Pedigree =>
  pedigreeFromArrays(sire, dam, ids, hidden);

/** Changes with the part and with everything else that is given: for the key of an answer that rests on both. */
export const stateOfPart = (
  { ids, sire, dam, hidden }: PedigreePart,
  ...given: readonly unknown[]
): string =>
  createHash('sha256')
    .update(sire)
    .update(dam)
    .update(hidden ?? '')
    .update(JSON.stringify([ids, ...given], bigintAsText))
    .digest('hex');

const bigintAsText = (_key: string, value: unknown): unknown =>
  typeof value === 'bigint' ? String(value) : value;
