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
  const { rowOf, duplicates, nameless } = rowsOfIds(ids);
  const resolver = new ParentRows(ids, rowOf, addUnlisted);
  const listedSire = resolver.rowsOf(columns.sire, listed);
  const listedDam = resolver.rowsOf(columns.dam, listed);
  const found = { ids, rowOf, duplicates, nameless, unlisted: resolver.unlisted };
  if (ids.length === listed) return { ...found, sire: listedSire, dam: listedDam };
  const sire = new Int32Array(ids.length).fill(-1);
  const dam = new Int32Array(ids.length).fill(-1);
  sire.set(listedSire);
  dam.set(listedDam);
  return { ...found, sire, dam };
}

function rowsOfIds(ids: readonly string[]) {
  const rowOf = new Map<string, number>();
  const duplicates: number[] = [];
  const nameless: number[] = [];
  for (let row = 0; row < ids.length; row++) {
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
    for (let row = 0; row < ids.length; row++) {
      const id = ids[row]!;
      if (id !== '' && !rowOf.has(id)) rowOf.set(id, row);
    }
  }
  return { rowOf, duplicates, nameless };
}

/** Finds the rows of named parents; with `adds` one that has no record gets a row behind the others. */
class ParentRows {
  /** Whether a parent was named that has no row. */
  unlisted = false;

  constructor(
    private readonly ids: string[],
    private readonly rowOf: Map<string, number>,
    private readonly adds: boolean,
  ) {}

  rowsOf(parents: readonly (string | null | undefined)[], count: number): Int32Array {
    const found = new Int32Array(count);
    let lastId: string | null = null;
    let lastRow = -1;
    for (let row = 0; row < count; row++) {
      const parent = parents[row];
      if (parent === null || parent === undefined || parent === '') {
        found[row] = -1;
        continue;
      }
      // Spawns usually stand together, so the parent just looked up is often the one wanted again.
      if (parent !== lastId) {
        lastId = parent;
        lastRow = this.rowOf.get(parent) ?? this.withoutRecord(parent);
      }
      found[row] = lastRow;
    }
    return found;
  }

  private withoutRecord(parent: string): number {
    if (!this.adds) {
      this.unlisted = true;
      return UNLISTED;
    }
    const row = this.ids.length;
    this.ids.push(parent);
    this.rowOf.set(parent, row);
    return row;
  }
}
