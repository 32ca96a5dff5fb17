import { isCalendarDate } from '../graphql/date.scalar.js';
import type { FishSex } from '../fish/fish.entity.js';
import type { CsvRow, CsvTable } from './csv-table.js';
import { type ImportColumnRole, type MatchedColumn, readNumber } from './import-columns.js';
import { LENGTHS } from '../limits/lengths.js';
import type { ImportProblem, ImportProblemCode } from './import-problem.js';

/** One row of the file, read. */
export interface ReadFish {
  readonly line: number;
  readonly tag: string;
  readonly sire: string | null;
  readonly dam: string | null;
  /** `null`: the file does not say. */
  readonly sex: FishSex | null;
  readonly hatchDate: string | null;
  readonly lineCode: string | null;
  readonly scores: readonly { readonly column: MatchedColumn; readonly value: number }[];
}

const sexes: Readonly<Record<string, FishSex>> = {
  m: 'male',
  male: 'male',
  '♂': 'male',
  f: 'female',
  female: 'female',
  '♀': 'female',
  u: 'unsexed',
  unsexed: 'unsexed',
  unknown: 'unsexed',
  '?': 'uncertain',
  uncertain: 'uncertain',
};

/** Ways in which pedigree files say that a parent is not known; a fish with such a tag in the file is a fish all the same. */
const notKnown = new Set(['0', 'na', 'n/a', '?', '-', 'unknown']);

type Report = (
  line: number,
  column: MatchedColumn | null,
  code: ImportProblemCode,
  value: string | null,
  message: string,
  remedy: string,
) => void;

const readSex = (
  cell: string,
  line: number,
  column: MatchedColumn,
  report: Report,
): FishSex | null => {
  if (cell === '') return null;
  const sex = sexes[cell.toLowerCase()];
  if (sex !== undefined) return sex;
  report(
    line,
    column,
    'IMPORT_BAD_SEX',
    cell,
    `"${cell}" is not a sex.`,
    'Write male, female, uncertain, or leave the cell empty for an unsexed fish.',
  );
  return null;
};

const readDate = (
  cell: string,
  line: number,
  column: MatchedColumn,
  report: Report,
): string | null => {
  if (cell === '') return null;
  if (isCalendarDate(cell)) return cell;
  report(
    line,
    column,
    'IMPORT_BAD_DATE',
    cell,
    `"${cell}" is not a calendar day written year-month-day.`,
    'Write it as year-month-day, for example 2026-03-14, or leave the cell empty.',
  );
  return null;
};

const readLineCode = (
  cell: string,
  line: number,
  column: MatchedColumn,
  report: Report,
): string | null => {
  if (cell === '') return null;
  if (/^[\p{L}\p{N}-]{1,16}$/u.test(cell)) return cell;
  report(
    line,
    column,
    'IMPORT_BAD_LINE',
    cell,
    `"${cell}" cannot be the code of a line.`,
    'Give 1 to 16 letters, digits or hyphens, without spaces.',
  );
  return null;
};

const readScore = (
  cell: string,
  line: number,
  column: MatchedColumn,
  delimiter: string,
  report: Report,
): number | null => {
  const value = readNumber(cell, delimiter);
  if (value === null) {
    report(
      line,
      column,
      'IMPORT_BAD_NUMBER',
      cell,
      `"${cell}" is not a number.`,
      'Write a plain number such as 12.5, without a unit, or leave the cell empty.',
    );
    return null;
  }
  const { trait } = column;
  const low = trait?.minimum ?? -Infinity;
  const high = trait?.maximum ?? Infinity;
  const whole = trait?.kind === 'count' && !Number.isInteger(value);
  const yesNo = trait?.kind === 'yes_no' && value !== 0 && value !== 1;
  if (value >= low && value <= high && !whole && !yesNo) return value;
  const range = yesNo
    ? '1 for yes or 0 for no'
    : whole
      ? 'a whole number'
      : `a value from ${low} to ${high}`;
  report(
    line,
    column,
    'IMPORT_OUT_OF_RANGE',
    cell,
    `${value} is outside what "${trait?.name ?? ''}" allows.`,
    `Give ${range}, or match the column to another trait.`,
  );
  return null;
};

const columnOf = (columns: readonly MatchedColumn[], role: ImportColumnRole) =>
  columns.find((column) => column.role === role);

/** Reads the cells of every row; a cell that cannot be read is reported and taken as empty. */
export const readFish = (
  table: CsvTable,
  columns: readonly MatchedColumn[],
): { fish: ReadFish[]; problems: ImportProblem[] } => {
  const problems: ImportProblem[] = [];
  const report: Report = (line, column, code, value, message, remedy) =>
    problems.push({ line, column: column?.header ?? null, code, value, message, remedy });
  const tag = columnOf(columns, 'tag');
  if (tag === undefined) return { fish: [], problems };
  const roles = {
    sire: columnOf(columns, 'sire'),
    dam: columnOf(columns, 'dam'),
    sex: columnOf(columns, 'sex'),
    hatched: columnOf(columns, 'hatch_date'),
    line: columnOf(columns, 'line'),
  };
  const traits = columns.filter((column) => column.role === 'trait');
  const tags = new Set(table.rows.map((row) => row.cells[tag.index] ?? ''));
  const cell = (row: CsvRow, column: MatchedColumn | undefined): string =>
    column === undefined ? '' : (row.cells[column.index] ?? '');
  const parent = (text: string): string | null =>
    text === '' || (notKnown.has(text.toLowerCase()) && !tags.has(text)) ? null : text;
  const fish: ReadFish[] = [];
  for (const row of table.rows) {
    const { line } = row;
    const own = cell(row, tag);
    if (own === '') {
      report(
        line,
        tag,
        'IMPORT_TAG_MISSING',
        null,
        'The fish has no tag.',
        'Give it a tag, or remove the row.',
      );
      continue;
    }
    if (own.length > LENGTHS.word) {
      report(
        line,
        tag,
        'IMPORT_TAG_LONG',
        own.slice(0, LENGTHS.word),
        `The tag has ${own.length} characters.`,
        `Give a tag of at most ${LENGTHS.word} characters.`,
      );
      continue;
    }
    const scores = traits.flatMap((column) => {
      const text = cell(row, column);
      const value = text === '' ? null : readScore(text, line, column, table.delimiter, report);
      return value === null ? [] : [{ column, value }];
    });
    fish.push({
      line,
      tag: own,
      sire: parent(cell(row, roles.sire)),
      dam: parent(cell(row, roles.dam)),
      sex: roles.sex ? readSex(cell(row, roles.sex), line, roles.sex, report) : null,
      hatchDate: roles.hatched
        ? readDate(cell(row, roles.hatched), line, roles.hatched, report)
        : null,
      lineCode: roles.line ? readLineCode(cell(row, roles.line), line, roles.line, report) : null,
      scores,
    });
  }
  return { fish, problems };
};
