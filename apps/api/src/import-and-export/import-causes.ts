import { type Cause, groupFaults, type RepairAnswer } from '@linewright/repair';
import type { CsvTable } from './csv-table.js';
import type { ImportNoteCode, ImportProblemCode } from './import-problem.js';
import type { ImportPlan } from './plan-import.js';

type Code = ImportProblemCode | ImportNoteCode;

/** What lies behind faults of a kind, and how all of them can be answered at once. */
interface Kind {
  /** Said of so many of them: "304 dates: which comes first, the day or the month?" */
  readonly title: (count: number, column: string) => string;
  /** In the order in which they are offered. */
  readonly answers: readonly RepairAnswer[];
  /** Whether one wrong value is mended wherever it stands; else row by row. */
  readonly byValue: boolean;
}

const many = (count: number, one: string, more = `${one}s`): string =>
  `${count} ${count === 1 ? one : more}`;

const cells =
  (what: string): Kind['title'] =>
  (count, column) =>
    `${many(count, 'cell')} in "${column}": ${what}`;

const kind = (
  title: Kind['title'],
  answers: readonly RepairAnswer[] = [],
  byValue = false,
): Kind => ({ title, answers, byValue });

const wholeFile = (title: string): Kind => kind(() => title);

const kinds: Readonly<Record<Code, Kind>> = {
  IMPORT_EMPTY: wholeFile('The file holds no fish'),
  IMPORT_TOO_LARGE: wholeFile('The file is too large'),
  IMPORT_UNREADABLE: wholeFile('The file cannot be read to its end'),
  IMPORT_NO_TAG_COLUMN: wholeFile('No column holds the tags: choose it above'),
  IMPORT_COLUMN_MISSING: wholeFile('A column that was chosen is not in this file'),
  IMPORT_COLUMN_TWICE: wholeFile('Two columns are read as the same: choose again above'),
  IMPORT_ROW_LENGTH: kind(
    (count) => `${many(count, 'row')} with too few or too many cells`,
    ['empty', 'leave-out'],
  ),
  IMPORT_TAG_MISSING: kind((count) => `${many(count, 'row')} without a tag`, ['leave-out']),
  IMPORT_TAG_LONG: kind((count) => `${many(count, 'tag')} too long`, ['leave-out']),
  IMPORT_DUPLICATE_TAG: kind(
    (count) => `${many(count, 'row')} with a tag that is in the file already`,
    ['leave-out'],
  ),
  IMPORT_TAG_TAKEN: kind(
    (count, column) => `${many(count, 'fish', 'fish')} recorded already with another "${column}"`,
    ['leave-out'],
  ),
  IMPORT_UNKNOWN_PARENT: kind(
    (count, column) => `${many(count, 'parent')} in "${column}" with neither a row nor a record`,
    ['offer', 'add', 'empty'],
    true,
  ),
  IMPORT_PARENT_WITHDRAWN: kind(cells('the record was withdrawn'), ['empty'], true),
  IMPORT_OWN_ANCESTOR: kind(
    (count) => `${many(count, 'fish', 'fish')} among its own ancestors`,
    ['empty'],
  ),
  IMPORT_SAME_PARENTS: kind(
    (count) => `${many(count, 'fish', 'fish')} with the same fish as sire and dam`,
    ['empty'],
  ),
  IMPORT_MALE_AS_DAM: kind((count) => `${many(count, 'male')} named as a dam`, ['empty']),
  IMPORT_FEMALE_AS_SIRE: kind((count) => `${many(count, 'female')} named as a sire`, ['empty']),
  IMPORT_BOTH_ROLES: kind(
    (count) => `${many(count, 'fish', 'fish')} named as sire and as dam`,
    ['empty'],
  ),
  IMPORT_PARENT_YOUNGER: kind(
    (count) => `${many(count, 'parent')} younger than its young`,
    ['empty'],
  ),
  IMPORT_DATE_ORDER: kind(
    (count) => `${many(count, 'date')}: which comes first, the day or the month?`,
    [],
    true,
  ),
  IMPORT_BAD_DATE: kind(cells('not a day of the calendar'), ['offer', 'empty'], true),
  IMPORT_BAD_SEX: kind(cells('not a sex'), ['offer', 'empty'], true),
  IMPORT_BAD_LINE: kind(cells('not the code of a line'), ['offer', 'empty'], true),
  IMPORT_BAD_NUMBER: kind(cells('not a number'), ['offer', 'empty'], true),
  IMPORT_BAD_YES_NO: kind(cells('neither yes nor no'), ['empty'], true),
  IMPORT_BAD_DISPOSITION: kind(
    cells('does not say what became of the fish'),
    ['offer', 'empty'],
    true,
  ),
  IMPORT_UNKNOWN_KEEPER: kind(cells('nobody on record'), ['note', 'empty'], true),
  IMPORT_TEXT_LONG: kind(cells('too long'), ['empty'], true),
  IMPORT_SPAWN_PARENTS: kind(
    (count) => `${many(count, 'fish', 'fish')} with other parents than the rest of the spawn`,
    ['empty'],
  ),
  IMPORT_BROKEN_LETTERS: kind(cells('a letter that was lost'), ['empty'], true),
  IMPORT_OUT_OF_RANGE: kind(cells('outside what the trait allows'), ['empty'], true),
  IMPORT_SUMMARY_ROW: kind((count) => `${many(count, 'row')} named like a sum, not imported`),
  IMPORT_SPELLING: kind(cells('read as another that differs in capitals or blanks only'), [], true),
  IMPORT_ONLY_TAG: kind((count) => `${many(count, 'row')} with nothing but a tag`, ['leave-out']),
  IMPORT_VESSEL_SHARED: kind((count) => `${many(count, 'vessel')} with several fish in it`),
  IMPORT_NEAR_LINE: kind(
    (count) => `${many(count, 'row')} of a line spelt nearly like another`,
    ['offer'],
    true,
  ),
};

const byLine: ReadonlySet<string> = new Set(
  Object.entries(kinds).flatMap(([code, { byValue }]) => (byValue ? [] : [code])),
);

/** An emptied cell says nothing against the record, but an empty parent says that it is not known. */
const answersOf = (cause: Cause, roleOf: (header: string | null) => string | undefined) => {
  const { answers } = kinds[cause.code as Code];
  const role = roleOf(cause.column);
  if (cause.code === 'IMPORT_TAG_TAKEN' && !['tag', 'sire', 'dam'].includes(role ?? ''))
    return [...answers, 'empty' as const];
  return answers.filter((answer) => answer !== 'offer' || cause.offered > 0);
};

export interface ImportCause extends Cause {
  readonly title: string;
  readonly answers: readonly RepairAnswer[];
  readonly byValue: boolean;
  /** Of each value, the first row that has it. */
  readonly rows: readonly string[];
}

const LONGEST_ROW = 160;

const rowsByLine = (table: CsvTable): ((line: number | undefined) => string) => {
  const rows = new Map(table.rows.map((row) => [row.line, row.cells]));
  return (line) => {
    const text = (rows.get(line ?? 0) ?? []).filter((cell) => cell !== '').join(' · ');
    return text.length > LONGEST_ROW ? `${text.slice(0, LONGEST_ROW)}…` : text;
  };
};

/** What is wrong with a file, or doubtful about it, by its causes, with what can be answered to each. */
export const causesOf = (
  plan: ImportPlan,
): { causes: readonly ImportCause[]; doubts: readonly ImportCause[] } => {
  const rowAt = rowsByLine(plan.table);
  const roleOf = (header: string | null): string | undefined =>
    plan.columns.find((one) => one.header === header)?.role;
  const told = (cause: Cause): ImportCause => {
    const { title, byValue } = kinds[cause.code as Code];
    return {
      ...cause,
      byValue,
      title: title(cause.count, cause.column ?? ''),
      answers: answersOf(cause, roleOf),
      rows: cause.values.map(({ lines }) => rowAt(lines[0])),
    };
  };
  return {
    causes: groupFaults(plan.problems, byLine).map(told),
    doubts: groupFaults(plan.notes, byLine).map(told),
  };
};
