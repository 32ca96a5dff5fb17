import { pedigreeFromRows, type PedigreeRows } from './build-pedigree.js';
import { NO_PARENT, type Pedigree } from './pedigree.js';
import { PedigreeError } from './pedigree-error.js';
import type { PedigreeOptions } from './columns.js';

export type ParentRole = 'sire' | 'dam';

/** Rows, and the brood that each came from. */
export interface BroodRows extends PedigreeRows {
  /** Number of each row's brood, from 0; {@link NO_PARENT} for a row whose sibs are not known. Rows of one brood are full sibs. */
  readonly brood: Int32Array;
  /** Id of the hidden parent of a brood. */
  readonly hiddenId: (brood: number, role: ParentRole) => string;
}

/** A parent that nobody knows, put into the pedigree because several young share it. */
export interface HiddenParent {
  readonly index: number;
  readonly brood: number;
  readonly role: ParentRole;
}

/** A brood whose rows name different parents, though one of them lacks that parent. */
export interface BroodConflict {
  readonly brood: number;
  readonly role: ParentRole;
  /** A row for each of two different parents. */
  readonly rows: readonly [number, number];
}

/**
 * The broods in which a parent of some row is unknown while other rows of that brood name two different ones. Broods whose parents
 * are all known are not looked at. Cost: linear in rows.
 */
export function findBroodConflicts(
  rows: Pick<BroodRows, 'sire' | 'dam' | 'brood'>,
): BroodConflict[] {
  return conflictsIn(sharedOf(rows));
}

type SharedOf = Readonly<Record<ParentRole, ReturnType<typeof sharedParents>>>;

const sharedOf = ({ sire, dam, brood }: Pick<BroodRows, 'sire' | 'dam' | 'brood'>): SharedOf => ({
  sire: sharedParents(sire, brood),
  dam: sharedParents(dam, brood),
});

const conflictsIn = (shared: SharedOf): BroodConflict[] =>
  (['sire', 'dam'] as const).flatMap((role) =>
    shared[role].conflicts.map((conflict) => ({ ...conflict, role })),
  );

/**
 * {@link pedigreeFromRows} for rows that tell broods apart: young of one brood are full sibs, also when nobody knows their parents.
 *
 * In a brood of two or more, an unknown parent is one and the same fish for all of them: the one that a sib names, otherwise a
 * founder of its own that no row stands for, marked in {@link Pedigree.hidden}. A brood of one row is left as it is.
 *
 * @returns the pedigree, the index each given row got, and the parents put in.
 * @throws {PedigreeError} as {@link pedigreeFromRows}; `PEDIGREE_LENGTH_MISMATCH`; `PEDIGREE_BAD_ARGUMENT` for a brood that
 * {@link findBroodConflicts} lists.
 * Cost: linear in rows.
 * @example
 * const none = Int32Array.of(-1, -1);
 * const { pedigree } = pedigreeOfBroods({
 *   sire: none, dam: none, brood: Int32Array.of(0, 0), ids: () => ['a', 'b'], hiddenId: (brood, role) => `${role} ${brood}`,
 * });
 * pedigree.ids; // ['sire 0', 'dam 0', 'a', 'b']: a and b are full sibs
 */
export function pedigreeOfBroods(
  rows: BroodRows,
  options: Pick<PedigreeOptions, 'allowSelfing'> = {},
): {
  readonly pedigree: Pedigree;
  readonly indexOfRow: Int32Array;
  readonly hidden: readonly HiddenParent[];
} {
  const size = rows.sire.length;
  if (rows.brood.length !== size) {
    throw new PedigreeError(
      'PEDIGREE_LENGTH_MISMATCH',
      `sire has ${size} rows, brood has ${rows.brood.length}.`,
    );
  }
  const shared = sharedOf(rows);
  expectNoConflict(rows, shared);
  const added: AddedParent[] = [];
  const sire = completed(rows, 'sire', shared, added);
  const dam = completed(rows, 'dam', shared, added);
  if (added.length === 0) {
    return { ...pedigreeFromRows(rows, options), hidden: [] };
  }
  const withHidden = (parents: Int32Array): Int32Array => {
    const longer = new Int32Array(size + added.length).fill(NO_PARENT);
    longer.set(parents);
    return longer;
  };
  const built = pedigreeFromRows(
    {
      sire: withHidden(sire),
      dam: withHidden(dam),
      ids: () => [...rows.ids(), ...added.map((each) => rows.hiddenId(each.brood, each.role))],
      ...(rows.rows !== undefined && { rows: rows.rows }),
    },
    options,
    size,
  );
  return {
    pedigree: built.pedigree,
    indexOfRow: built.indexOfRow.subarray(0, size),
    hidden: added.map((each, k) => ({ ...each, index: built.indexOfRow[size + k]! })),
  };
}

function expectNoConflict(rows: BroodRows, shared: SharedOf): void {
  const [conflict] = conflictsIn(shared);
  if (conflict === undefined) return;
  const ids = rows.ids();
  throw new PedigreeError(
    'PEDIGREE_BAD_ARGUMENT',
    `"${ids[conflict.rows[0]]!}" and "${ids[conflict.rows[1]]!}" are of one brood and have different ${conflict.role}s. Correct the ${conflict.role} or the brood.`,
  );
}

type AddedParent = Pick<HiddenParent, 'brood' | 'role'>;

/** One parent of each row, with those that sibs share; a parent that no sib names is put behind the rows, and into `added`. */
function completed(
  rows: BroodRows,
  role: ParentRole,
  shared: SharedOf,
  added: AddedParent[],
): Int32Array {
  const { known, missing } = shared[role];
  const place = new Map<number, number>();
  return rows[role].map((parent, row) => {
    const of = rows.brood[row]!;
    if (parent >= 0 || of < 0 || !missing.has(of)) return parent;
    const named = known.get(of) ?? place.get(of);
    if (named !== undefined) return named;
    const hiddenRow = rows.sire.length + added.length;
    added.push({ brood: of, role });
    place.set(of, hiddenRow);
    return hiddenRow;
  });
}

/** By brood: the parent that some row names, and the broods of two rows or more in which a row lacks it. */
function sharedParents(parents: Int32Array, brood: Int32Array) {
  const seen = new Set<number>();
  const several = new Set<number>();
  const lacking = new Set<number>();
  const known = new Map<number, number>();
  const knownAt = new Map<number, number>();
  const different = new Map<number, readonly [number, number]>();
  for (let row = 0; row < brood.length; row++) {
    const of = brood[row]!;
    if (of < 0) continue;
    if (seen.has(of)) several.add(of);
    else seen.add(of);
    const parent = parents[row]!;
    if (parent < 0) lacking.add(of);
    else if (!known.has(of)) {
      known.set(of, parent);
      knownAt.set(of, row);
    } else if (known.get(of) !== parent && !different.has(of)) {
      different.set(of, [knownAt.get(of)!, row]);
    }
  }
  const missing = new Set([...several].filter((of) => lacking.has(of)));
  const conflicts = [...different]
    .filter(([of]) => missing.has(of))
    .map(([of, rows]) => ({ brood: of, rows }));
  return { known, missing, conflicts };
}
