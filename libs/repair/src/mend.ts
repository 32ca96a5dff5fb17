import type { DayOrder } from './written-day.js';
import type { Fault } from './faults.js';

/** A row with the line of the file on which it begins, counted from 1. */
export interface FileRow {
  readonly line: number;
  readonly cells: readonly string[];
}

export interface FileTable {
  readonly header: readonly string[];
  readonly rows: readonly FileRow[];
}

/**
 * One answer for all faults of a cause. `empty`: the cells count as empty (of a row that is too short: what is missing); `leave-out`:
 * the rows are not taken in; `offer`: every value with one offer becomes that; `add`: a parent that has no row gets one with its
 * tag; `note`: the value goes into the note of the fish.
 */
export type RepairAnswer = 'empty' | 'leave-out' | 'offer' | 'add' | 'note';

export interface CauseAnswer {
  readonly code: string;
  readonly column: string | null;
  readonly answer: RepairAnswer;
}

/** What was decided about a file. */
export interface Repairs {
  /** Which comes first in days such as 5/3/2024; `null` while nobody said. */
  readonly dayOrder: DayOrder | null;
  /** The separator, where the one found is wrong. */
  readonly separator: string | null;
  /** What becomes of fish of which the file does not say whether they are in use; `null` while nobody said. */
  readonly unmarked: 'unsorted' | 'keeper' | null;
  readonly answers: readonly CauseAnswer[];
  /** One wrong value of a column, mended wherever it stands there. */
  readonly values: readonly {
    readonly column: string;
    readonly from: string;
    readonly to: string;
  }[];
  /** One cell, mended in place. */
  readonly cells: readonly {
    readonly line: number;
    readonly column: string;
    readonly to: string;
  }[];
  /** Lines of rows that are not taken in. */
  readonly leftOut: readonly number[];
  /** Lines of rows that look like a sum and are a fish. */
  readonly fish: readonly number[];
}

export const noRepairs: Repairs = {
  dayOrder: null,
  separator: null,
  unmarked: null,
  answers: [],
  values: [],
  cells: [],
  leftOut: [],
  fish: [],
};

/** What of it serves the next file of this shape: all but what names lines of this one. */
export const forNextFile = (repairs: Repairs): Repairs => ({
  ...repairs,
  cells: [],
  leftOut: [],
  fish: [],
});

/**
 * The table with rows left out, wrong values and single cells mended; a cell said by itself counts more than its value. A column or
 * line that the table does not have changes nothing. Cost: linear in the cells.
 */
export const withRepairs = <Table extends FileTable>(table: Table, repairs: Repairs): Table => {
  const { values, cells, leftOut } = repairs;
  if (values.length === 0 && cells.length === 0 && leftOut.length === 0) return table;
  const index = new Map(table.header.map((header, at) => [header, at]));
  const byColumn = new Map<number, Map<string, string>>();
  for (const { column, from, to } of values) {
    const at = index.get(column);
    if (at === undefined) continue;
    byColumn.set(at, (byColumn.get(at) ?? new Map<string, string>()).set(from, to));
  }
  const byLine = new Map<number, [number, string][]>();
  for (const { line, column, to } of cells) {
    const at = index.get(column);
    if (at !== undefined) byLine.set(line, [...(byLine.get(line) ?? []), [at, to]]);
  }
  const gone = new Set(leftOut);
  const rows = table.rows
    .filter(({ line }) => !gone.has(line))
    .map((row) => {
      const changes: [number, string][] = [];
      for (const [at, changed] of byColumn) {
        const to = changed.get(row.cells[at] ?? '');
        if (to !== undefined) changes.push([at, to]);
      }
      changes.push(...(byLine.get(row.line) ?? []));
      return changes.length === 0 ? row : withCells(row, changes);
    });
  return { ...table, rows };
};

const withCells = (row: FileRow, changes: readonly (readonly [number, string])[]): FileRow => {
  const cells = [...row.cells];
  for (const [at, to] of changes) {
    while (cells.length < at) cells.push('');
    cells[at] = to;
  }
  return { ...row, cells };
};

/** Where the columns that an added parent needs stand; `undefined` for one that the file does not have. */
export interface ParentColumns {
  readonly tag: number | undefined;
  readonly sex: number | undefined;
  readonly sire: string | undefined;
  readonly dam: string | undefined;
}

/** An answer that changed something, and in how many places. */
export interface AnswerDone extends CauseAnswer {
  readonly count: number;
}

const keyOf = ({ code, column }: Pick<Fault, 'code' | 'column'>): string =>
  `${code}\n${column ?? ''}`;

/** Rows for parents that have none: the sex goes by what they are named as, unless they are named as both. */
const parentRows = (
  table: FileTable,
  faults: readonly Fault[],
  columns: ParentColumns,
): FileRow[] => {
  const { tag, sex, sire, dam } = columns;
  if (tag === undefined) return [];
  const named = new Map<string, { line: number; sire: boolean; dam: boolean }>();
  for (const { value, line, column } of faults) {
    if (value === null) continue;
    const one = named.get(value) ?? { line, sire: false, dam: false };
    named.set(value, {
      line: one.line,
      sire: one.sire || column === sire,
      dam: one.dam || column === dam,
    });
  }
  return [...named].map(([value, one]) => {
    const cells = table.header.map(() => '');
    cells[tag] = value;
    if (sex !== undefined && one.sire !== one.dam) cells[sex] = one.sire ? 'male' : 'female';
    return { line: one.line, cells };
  });
};

/**
 * Does the answers given for whole causes to the faults that were found: once. Of several answers to one cause the first that fits a
 * fault counts: what was most likely meant where that is known, else a row of its own. Doing so can bring up others, so the table is
 * looked at again afterwards.
 *
 * @returns the mended table, and the answers that changed something; `note` is left to whoever reads the rows
 */
export const withAnswers = <Table extends FileTable>(
  table: Table,
  faults: readonly Fault[],
  answers: readonly CauseAnswer[],
  columns: ParentColumns,
): { readonly table: Table; readonly done: readonly AnswerDone[] } => {
  const index = new Map(table.header.map((header, at) => [header, at]));
  const cells = new Map<number, [number, string][]>();
  const padded = new Set<number>();
  const gone = new Set<number>();
  const added: Fault[] = [];
  const done: AnswerDone[] = [];
  const byCause = new Map<string, Fault[]>();
  for (const fault of faults) {
    const key = keyOf(fault);
    const list = byCause.get(key);
    if (list === undefined) byCause.set(key, [fault]);
    else list.push(fault);
  }
  const set = (fault: Fault, to: string): boolean => {
    const at = fault.column === null ? undefined : index.get(fault.column);
    if (at === undefined) return false;
    cells.set(fault.line, [...(cells.get(fault.line) ?? []), [at, to]]);
    return true;
  };
  const act = (fault: Fault, answer: RepairAnswer): boolean => {
    if (answer === 'leave-out') return gone.add(fault.line).size > 0;
    if (answer === 'add') return added.push(fault) > 0;
    if (answer === 'offer') return fault.offers?.length === 1 && set(fault, fault.offers[0] ?? '');
    if (answer === 'note') return false;
    return fault.column === null ? padded.add(fault.line).size > 0 : set(fault, '');
  };
  const settled = new Set<Fault>();
  for (const answer of answers) {
    let count = 0;
    for (const fault of byCause.get(keyOf(answer)) ?? []) {
      if (settled.has(fault) || !act(fault, answer.answer)) continue;
      settled.add(fault);
      count += 1;
    }
    if (count > 0) done.push({ ...answer, count });
  }
  if (done.length === 0) return { table, done };
  const width = table.header.length;
  const rows = table.rows
    .filter(({ line }) => !gone.has(line))
    .map((row) => {
      const changed = withCells(row, cells.get(row.line) ?? []);
      if (!padded.has(row.line) || changed.cells.length >= width) return changed;
      return withCells(changed, [[width - 1, changed.cells[width - 1] ?? '']]);
    });
  return { table: { ...table, rows: [...rows, ...parentRows(table, added, columns)] }, done };
};
