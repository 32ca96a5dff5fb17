import { NO_PARENT, type ParentRole, type Pedigree, pedigreeOfBroods } from '@linewright/pedigree';
import type { ParentageRow } from '../stock/pedigree-rows.js';

export const hiddenParentId = (spawnId: string, role: ParentRole): string =>
  `${role}-of-${spawnId}`;

const HIDDEN = /^(sire|dam)-of-(.+)$/;

/** Whose parent a hidden one is; `null` for the id of a recorded fish. */
export const hiddenParent = (id: string): { role: ParentRole; spawnId: string } | null => {
  const [, role, spawnId] = HIDDEN.exec(id) ?? [];
  return spawnId === undefined ? null : { role: role as ParentRole, spawnId };
};

/**
 * The one way from rows to a pedigree: young of one spawn are full sibs whoever knows their parents, so that an unknown parent of two
 * or more of them is one hidden fish.
 */
export const pedigreeOfRows = (rows: readonly ParentageRow[]): Pedigree => {
  const place = new Map(rows.map(({ id }, row) => [id, row]));
  const spawns: string[] = [];
  const numbers = new Map<string, number>();
  const broodOf = ({ spawnId, mixed }: ParentageRow): number => {
    if (spawnId === null || mixed) return NO_PARENT;
    const known = numbers.get(spawnId);
    if (known !== undefined) return known;
    numbers.set(spawnId, spawns.length);
    return spawns.push(spawnId) - 1;
  };
  // One that is not among the rows is no other: it counts as unknown.
  const parent = (id: string | null): number =>
    id === null ? NO_PARENT : (place.get(id) ?? NO_PARENT);
  return pedigreeOfBroods({
    sire: Int32Array.from(rows, ({ sire }) => parent(sire)),
    dam: Int32Array.from(rows, ({ dam }) => parent(dam)),
    brood: Int32Array.from(rows, broodOf),
    ids: () => rows.map(({ id }) => id),
    hiddenId: (brood, role) => hiddenParentId(spawns[brood] ?? '', role),
  }).pedigree;
};

/** What a hidden parent is called on screens and prints; without the spawn where that may not be seen. */
export const hiddenParentTag = (role: ParentRole, spawnTag: string | undefined): string =>
  spawnTag === undefined ? `unknown ${role}` : `unknown ${role} of ${spawnTag}`;
