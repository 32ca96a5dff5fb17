import type { Sex } from './pedigree.js';

/**
 * A pedigree as columns, in any row order: what a file reader collects when it has a million rows and no wish for a
 * million objects. All columns have the length of `ids`; `null`, `undefined` and empty text stand for unknown.
 */
export interface PedigreeColumns {
  readonly ids: readonly string[];
  readonly sire: readonly (string | null | undefined)[];
  readonly dam: readonly (string | null | undefined)[];
  readonly sex?: readonly (Sex | undefined)[];
  /** ISO dates. */
  readonly bornOn?: readonly (string | null | undefined)[];
  /** Line number of each row, for messages. */
  readonly rows?: ArrayLike<number | undefined>;
}

/** How strictly records are read. */
export interface PedigreeOptions {
  /** `reject` (the default) reports a parent that has no record; `add` makes it a founder. */
  readonly unlistedParents?: 'reject' | 'add';
  /**
   * Accept one individual as both parents of a young, and one individual in both roles. For hermaphrodites and for the
   * textbook's systematic selfing; fish of two sexes leave it off. Default `false`.
   */
  readonly allowSelfing?: boolean;
}

/** Marks a parent that is named but has no record. */
export const UNLISTED = -2;

/** Columns with every id resolved to a row: `sire` and `dam` hold rows, `NO_PARENT` or `UNLISTED`. */
export interface InternedColumns {
  readonly ids: readonly string[];
  readonly rowOf: ReadonlyMap<string, number> | undefined;
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  /** Rows whose id another row above already has. */
  readonly duplicates: readonly number[];
  /** Rows with an empty id. */
  readonly nameless: readonly number[];
  readonly unlisted: boolean;
}

/** Gives every id its row, once, through one map, and turns the parent columns into rows. */
export function internColumns(columns: PedigreeColumns, addUnlisted: boolean): InternedColumns {
  const listed = columns.ids.length;
  const ids = columns.ids.slice();
  const rowOf = new Map<string, number>();
  const duplicates: number[] = [];
  const nameless: number[] = [];
  for (let row = 0; row < listed; row++) {
    const id = ids[row]!;
    if (id === '') {
      nameless.push(row);
      continue;
    }
    rowOf.set(id, row);
    if (rowOf.size + duplicates.length + nameless.length !== row + 1) duplicates.push(row);
  }
  // The first record of an id stands; later ones are only reported.
  for (let k = duplicates.length - 1; k >= 0; k--) rowOf.delete(ids[duplicates[k]!]!);
  if (duplicates.length > 0) {
    for (let row = 0; row < listed; row++) {
      const id = ids[row]!;
      if (id !== '' && !rowOf.has(id)) rowOf.set(id, row);
    }
  }
  let unlisted = false;
  const resolve = (parents: readonly (string | null | undefined)[]): Int32Array => {
    const found = new Int32Array(listed);
    let lastId: string | null = null;
    let lastRow = -1;
    for (let row = 0; row < listed; row++) {
      const parent = parents[row];
      if (parent === null || parent === undefined || parent === '') {
        found[row] = -1;
        continue;
      }
      // Spawns usually stand together, so the parent just looked up is often the one wanted again.
      if (parent !== lastId) {
        let parentRow = rowOf.get(parent);
        if (parentRow === undefined) {
          if (addUnlisted) {
            parentRow = ids.length;
            ids.push(parent);
            rowOf.set(parent, parentRow);
          } else {
            parentRow = UNLISTED;
            unlisted = true;
          }
        }
        lastId = parent;
        lastRow = parentRow;
      }
      found[row] = lastRow;
    }
    return found;
  };
  const listedSire = resolve(columns.sire);
  const listedDam = resolve(columns.dam);
  if (ids.length === listed) {
    return { ids, rowOf, sire: listedSire, dam: listedDam, duplicates, nameless, unlisted };
  }
  const sire = new Int32Array(ids.length).fill(-1);
  const dam = new Int32Array(ids.length).fill(-1);
  sire.set(listedSire);
  dam.set(listedDam);
  return { ids, rowOf, sire, dam, duplicates, nameless, unlisted };
}
