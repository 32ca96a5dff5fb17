import {
  internColumns,
  type InternedColumns,
  type PedigreeColumns,
  type PedigreeOptions,
} from './columns.js';
import { orderByDepth, type GenerationCount } from './order.js';
import { NO_PARENT, type ParentageRecord, type Pedigree, type Sex } from './pedigree.js';
import { PedigreeError, type PedigreeProblem } from './pedigree-error.js';
import { collectProblems } from './problems.js';

/**
 * Builds the compact pedigree from records in any order.
 *
 * Rows that already have parents first keep their order; otherwise individuals are sorted by generation (longest path to
 * a founder) and, within one, by their given order. No recursion: depth is limited by memory only.
 *
 * @throws {PedigreeError} `PEDIGREE_INVALID`, with every problem in `.problems`.
 * Cost: linear in records.
 * @example
 * const pedigree = buildPedigree([{ id: 'fry', sire: 'red', dam: 'blue' }, { id: 'red' }, { id: 'blue' }]);
 * pedigree.sire[pedigree.indexOf('fry')] === pedigree.indexOf('red'); // true
 */
export function buildPedigree(
  records: Iterable<ParentageRecord>,
  options: PedigreeOptions = {},
): Pedigree {
  return pedigreeFromColumns(toColumns(records), options);
}

/**
 * Every problem of a set of records, sorted by row; empty when {@link buildPedigree} would accept them.
 *
 * Found at once: empty and duplicate ids, parents without a record, own ancestors (one cycle spelled out for every
 * tangle), one individual as both parents, sex contradictions, dates that are no dates, parents not older than their young.
 * Cost: linear in records.
 */
export function findProblems(
  records: Iterable<ParentageRecord>,
  options: PedigreeOptions = {},
): PedigreeProblem[] {
  return findColumnProblems(toColumns(records), options);
}

/** {@link findProblems} for columns. */
export function findColumnProblems(
  columns: PedigreeColumns,
  options: PedigreeOptions = {},
): PedigreeProblem[] {
  checkLengths(columns);
  const interned = internColumns(columns, options.unlistedParents === 'add');
  return collectProblems(columns, interned, options).problems;
}

/**
 * {@link buildPedigree} for columns: the way to a million rows, with no object made for any of them.
 *
 * @throws {PedigreeError} `PEDIGREE_INVALID` as {@link buildPedigree}; `PEDIGREE_LENGTH_MISMATCH` for unequal columns.
 */
export function pedigreeFromColumns(
  columns: PedigreeColumns,
  options: PedigreeOptions = {},
): Pedigree {
  checkLengths(columns);
  const interned = internColumns(columns, options.unlistedParents === 'add');
  return built(columns, interned, options).pedigree;
}

/** A pedigree whose parents are row numbers already. */
export interface PedigreeRows {
  /** Row of each row's sire, {@link NO_PARENT} where unknown. */
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  /** Ids of all rows, all different; asked for only when they are needed. */
  readonly ids: () => readonly string[];
  /** Line number of each row, for messages. */
  readonly rows?: ArrayLike<number>;
}

/**
 * Builds the pedigree from row numbers in any order: for a reader that has told tags apart itself, without making strings.
 * The arrays may be kept and must not be changed afterwards. Rows from `hiddenFrom` on stand for parents that nobody knows
 * ({@link Pedigree.hidden}); none by default.
 *
 * @returns the pedigree, and the index each row got.
 * @throws {PedigreeError} `PEDIGREE_INVALID` as {@link buildPedigree}, `PEDIGREE_BAD_INDEX` for a parent that is no row.
 * Cost: linear in rows.
 */
export function pedigreeFromRows(
  rows: PedigreeRows,
  options: Pick<PedigreeOptions, 'allowSelfing'> = {},
  hiddenFrom: number = rows.sire.length,
): { readonly pedigree: Pedigree; readonly indexOfRow: Int32Array } {
  const { sire, dam } = rows;
  const size = sire.length;
  if (dam.length !== size) {
    throw new PedigreeError(
      'PEDIGREE_LENGTH_MISMATCH',
      `sire has ${size} rows, dam has ${dam.length}.`,
    );
  }
  for (let row = 0; row < size; row++) {
    if (
      sire[row]! >= NO_PARENT &&
      sire[row]! < size &&
      dam[row]! >= NO_PARENT &&
      dam[row]! < size
    ) {
      continue;
    }
    throw new PedigreeError(
      'PEDIGREE_BAD_INDEX',
      `Row ${row} has parents ${sire[row]!} and ${dam[row]!}; rows run from 0 to ${size - 1}.`,
    );
  }
  // Asked for at every problem, and a reader may have to spell out a million of them.
  let ids: readonly string[] | undefined;
  const interned: InternedColumns = {
    sire,
    dam,
    rowOf: undefined,
    duplicates: [],
    nameless: [],
    unlisted: false,
    get ids() {
      ids ??= rows.ids();
      return ids;
    },
  };
  const none: PedigreeColumns = { ids: [], sire: [], dam: [] };
  const columns = rows.rows === undefined ? none : { ...none, rows: rows.rows };
  return built(columns, interned, options, hiddenFrom);
}

function built(
  columns: PedigreeColumns,
  interned: InternedColumns,
  options: PedigreeOptions,
  hiddenFrom: number = interned.sire.length,
) {
  const { problems, generations } = collectProblems(columns, interned, options);
  if (problems.length > 0) {
    const first = problems[0]!.message;
    const more = problems.length === 1 ? '' : ` (and ${problems.length - 1} more problems)`;
    throw new PedigreeError('PEDIGREE_INVALID', first + more, problems);
  }
  return inTopologicalOrder(interned, generations, hiddenFrom);
}

/**
 * Wraps arrays that are topological already: parents at lower indices, {@link NO_PARENT} for unknown.
 * The arrays are not copied and must not be changed afterwards. `ids` default to the index as text; `hidden` marks individuals that
 * stand for parents nobody knows.
 *
 * @throws {PedigreeError} `PEDIGREE_NOT_TOPOLOGICAL`, `PEDIGREE_LENGTH_MISMATCH`; `PEDIGREE_INVALID` for a duplicate id,
 * raised when an id is first looked up.
 * Cost: one pass.
 */
export function pedigreeFromArrays(
  sire: Int32Array,
  dam: Int32Array,
  ids?: readonly string[],
  hidden?: Uint8Array,
): Pedigree {
  const lengths = [dam.length, ids?.length ?? dam.length, hidden?.length ?? dam.length];
  if (lengths.some((length) => length !== sire.length)) {
    throw new PedigreeError(
      'PEDIGREE_LENGTH_MISMATCH',
      `sire (${sire.length}), dam (${dam.length}), ids and hidden must have one length.`,
    );
  }
  for (let i = 0; i < sire.length; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    if (s >= i || d >= i || s < NO_PARENT || d < NO_PARENT) {
      throw new PedigreeError(
        'PEDIGREE_NOT_TOPOLOGICAL',
        `Individual ${i} has parents ${s} and ${d}; a parent's index must be lower than its young's, or ${NO_PARENT}.`,
      );
    }
  }
  const makeIds = () => ids ?? Array.from(sire, (_, index) => String(index));
  return new CompactPedigree(sire, dam, makeIds, undefined, undefined, hidden);
}

function toColumns(records: Iterable<ParentageRecord>): PedigreeColumns {
  const ids: string[] = [];
  const sire: (string | null | undefined)[] = [];
  const dam: (string | null | undefined)[] = [];
  const sex: (Sex | undefined)[] = [];
  const bornOn: (string | null | undefined)[] = [];
  const rows: (number | undefined)[] = [];
  let dated = false;
  for (const record of records) {
    ids.push(record.id);
    sire.push(record.sire);
    dam.push(record.dam);
    sex.push(record.sex);
    bornOn.push(record.bornOn);
    rows.push(record.row);
    dated ||= record.bornOn !== null && record.bornOn !== undefined;
  }
  return dated ? { ids, sire, dam, sex, rows, bornOn } : { ids, sire, dam, sex, rows };
}

function checkLengths(columns: PedigreeColumns): void {
  const size = columns.ids.length;
  const { sire, dam, sex, bornOn, rows } = columns;
  for (const [name, column] of Object.entries({ sire, dam, sex, bornOn, rows })) {
    if (column === undefined || column.length === size) continue;
    throw new PedigreeError(
      'PEDIGREE_LENGTH_MISMATCH',
      `Column ${name} has ${column.length} rows, ids has ${size}.`,
    );
  }
}

function inTopologicalOrder(
  interned: InternedColumns,
  generations: GenerationCount | undefined,
  hiddenFrom: number,
): { readonly pedigree: Pedigree; readonly indexOfRow: Int32Array } {
  const { rowOf, sire, dam } = interned;
  const size = sire.length;
  if (generations === undefined) {
    const hidden = hiddenFrom < size ? new Uint8Array(size).fill(1, hiddenFrom) : undefined;
    const pedigree = new CompactPedigree(sire, dam, () => interned.ids, rowOf, undefined, hidden);
    return { pedigree, indexOfRow: Int32Array.from(sire.keys()) };
  }
  const order = orderByDepth(generations.depth, generations.deepest);
  const indexOfRow = new Int32Array(size);
  for (let index = 0; index < size; index++) indexOfRow[order[index]!] = index;
  const orderedSire = new Int32Array(size);
  const orderedDam = new Int32Array(size);
  for (let index = 0; index < size; index++) {
    const row = order[index]!;
    const s = sire[row]!;
    const d = dam[row]!;
    orderedSire[index] = s < 0 ? NO_PARENT : indexOfRow[s]!;
    orderedDam[index] = d < 0 ? NO_PARENT : indexOfRow[d]!;
  }
  const ids = (): string[] => {
    const given = interned.ids;
    return Array.from(order, (row) => given[row]!);
  };
  const hidden = hiddenFrom < size ? new Uint8Array(size) : undefined;
  for (let row = hiddenFrom; row < size; row++) hidden![indexOfRow[row]!] = 1;
  const pedigree = new CompactPedigree(orderedSire, orderedDam, ids, rowOf, indexOfRow, hidden);
  return { pedigree, indexOfRow };
}

class CompactPedigree implements Pedigree {
  readonly size: number;
  readonly hidden?: Uint8Array;
  #ids: readonly string[] | undefined;
  readonly #makeIds: () => readonly string[];
  #rowOf: ReadonlyMap<string, number> | undefined;
  /** From the map's row to the index, when rows had to be moved; saves filling a second map. */
  readonly #place: Int32Array | undefined;

  constructor(
    readonly sire: Int32Array,
    readonly dam: Int32Array,
    makeIds: () => readonly string[],
    rowOf: ReadonlyMap<string, number> | undefined,
    place?: Int32Array,
    hidden?: Uint8Array,
  ) {
    if (hidden !== undefined) this.hidden = hidden;
    this.size = sire.length;
    this.#makeIds = makeIds;
    this.#rowOf = rowOf;
    this.#place = rowOf === undefined ? undefined : place;
  }

  get ids(): readonly string[] {
    this.#ids ??= this.#makeIds();
    return this.#ids;
  }

  has(id: string): boolean {
    return this.#rows().has(id);
  }

  indexOf(id: string): number {
    const row = this.#rows().get(id);
    if (row === undefined) {
      throw new PedigreeError(
        'PEDIGREE_UNKNOWN_ID',
        `"${id}" is not in the pedigree. Check the tag, or add a record for it.`,
      );
    }
    return this.#place === undefined ? row : this.#place[row]!;
  }

  #rows(): ReadonlyMap<string, number> {
    if (this.#rowOf !== undefined) return this.#rowOf;
    const rowOf = new Map<string, number>();
    for (let index = 0; index < this.size; index++) rowOf.set(this.ids[index]!, index);
    if (rowOf.size !== this.size) {
      throw new PedigreeError('PEDIGREE_INVALID', 'The ids of the pedigree are not all different.');
    }
    this.#rowOf = rowOf;
    return rowOf;
  }
}
