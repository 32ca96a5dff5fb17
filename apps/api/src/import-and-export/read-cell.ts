import { type ScoreSlip, scoreSlip } from '@linewright/merit';
import {
  type DayOrder,
  daysWritten,
  dispositionMeant,
  dispositionWritten,
  sexMeant,
  sexWritten,
} from '@linewright/repair';
import { daySlip, timeSlipText } from '../clock/expect-happened.js';
import type { FishDisposition, FishSex } from '../stock/rows/fish.entity.js';
import { type MatchedColumn, readNumber } from './import-columns.js';
import type { ImportProblemCode } from './import-problem.js';

/** How the cells of a file are read. */
export interface Reading {
  /** Which comes first in days such as 5/3/2024; `null` while nobody said and no day proves it. */
  readonly dayOrder: DayOrder | null;
  readonly latestDay: string;
  readonly latestYear: number;
  /** Lines of rows that look like a sum and are a fish. */
  readonly fishLines: ReadonlySet<number>;
  /** Names of keepers who are not on record go into the note. */
  readonly keepersIntoNote: boolean;
}

export type Report = (
  line: number,
  column: MatchedColumn | null,
  code: ImportProblemCode,
  value: string | null,
  message: string,
  remedy: string,
  offers?: readonly string[],
) => void;

export const readSex = (
  cell: string,
  line: number,
  column: MatchedColumn,
  report: Report,
): FishSex | null => {
  if (cell === '') return null;
  const sex = sexWritten(cell);
  if (sex !== null) return sex;
  const meant = sexMeant(cell);
  report(
    line,
    column,
    'IMPORT_BAD_SEX',
    cell,
    `"${cell}" is not a sex.`,
    'Write male, female, uncertain, or leave the cell empty for an unsexed fish.',
    meant === null ? [] : [meant],
  );
  return null;
};

export const readDate = (
  cell: string,
  line: number,
  column: MatchedColumn,
  { dayOrder, latestDay, latestYear }: Reading,
  report: Report,
): string | null => {
  if (cell === '') return null;
  const [day, other] = daysWritten(cell, dayOrder, latestYear);
  if (day !== undefined && other !== undefined) {
    report(
      line,
      column,
      'IMPORT_DATE_ORDER',
      cell,
      `"${cell}" may be ${day} or ${other}.`,
      'Say which comes first in these dates, the day or the month.',
    );
    return null;
  }
  const slip = day === undefined ? null : daySlip(day, latestDay);
  if (day !== undefined && slip === null) return day;
  const [is, remedy] =
    slip === null
      ? [
          'is not a day of the calendar.',
          'Write it as year-month-day, for example 2026-03-14, or leave the cell empty.',
        ]
      : [`is ${timeSlipText[slip]}`, 'Correct the day, or leave the cell empty.'];
  const offers = slip === null ? daysWritten(cell, null, latestYear) : [];
  report(line, column, 'IMPORT_BAD_DATE', cell, `"${cell}" ${is}`, remedy, offers);
  return null;
};

const LINE_CODE_LENGTH = 16;

export const readLineCode = (
  cell: string,
  line: number,
  column: MatchedColumn,
  report: Report,
): string | null => {
  if (cell === '') return null;
  if (/^[\p{L}\p{N}-]{1,16}$/u.test(cell)) return cell;
  const code = cell
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .slice(0, LINE_CODE_LENGTH)
    .replace(/^-+|-+$/g, '');
  report(
    line,
    column,
    'IMPORT_BAD_LINE',
    cell,
    `"${cell}" cannot be the code of a line.`,
    'Give 1 to 16 letters, digits or hyphens, without spaces.',
    code === '' ? [] : [code],
  );
  return null;
};

export const readDisposition = (
  cell: string,
  line: number,
  column: MatchedColumn,
  report: Report,
): FishDisposition | null => {
  if (cell === '') return null;
  const disposition = dispositionWritten(cell);
  if (disposition !== null) return disposition;
  const meant = dispositionMeant(cell);
  report(
    line,
    column,
    'IMPORT_BAD_DISPOSITION',
    cell,
    `"${cell}" does not say whether the fish is in use, nor what became of it.`,
    'Write keeper, hold, unsorted, culled, placed, died or elsewhere, or leave the cell empty.',
    meant === null ? [] : [meant],
  );
  return null;
};

export const readText = (
  cell: string,
  line: number,
  column: MatchedColumn,
  most: number,
  report: Report,
): string | null => {
  if (cell === '') return null;
  if (cell.length <= most) return cell;
  report(
    line,
    column,
    'IMPORT_TEXT_LONG',
    cell.slice(0, most),
    `The text has ${cell.length} characters.`,
    `Give at most ${most} characters.`,
  );
  return null;
};

export const reportKeeper = (
  name: string,
  line: number,
  column: MatchedColumn,
  report: Report,
): void =>
  report(
    line,
    column,
    'IMPORT_UNKNOWN_KEEPER',
    name,
    `Nobody named "${name}" is on record.`,
    'Put the name into the note of the fish, add the person first, or leave the cell empty.',
  );

const allowed: Readonly<
  Record<Exclude<ScoreSlip, 'not-a-number'>, (low: number, high: number) => string>
> = {
  'not-yes-or-no': () => '1 for yes or 0 for no',
  'not-whole': () => 'a whole number',
  below: (low, high) => `a value from ${low} to ${high}`,
  above: (low, high) => `a value from ${low} to ${high}`,
};

/** "40 mm", "ca. 38,5": the number in a text that holds one. */
const numberIn = (text: string, delimiter: string): string[] => {
  const found = text.match(/[+-]?\d+(?:[.,]\d+)?/g) ?? [];
  const [only] = found;
  if (found.length !== 1 || only === undefined) return [];
  return readNumber(only, delimiter) === null ? [] : [only];
};

export const readScore = (
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
      numberIn(cell, delimiter),
    );
    return null;
  }
  const { trait } = column;
  const slip = trait === null ? null : scoreSlip(trait, value);
  if (trait === null || slip === null || slip === 'not-a-number') return value;
  const range = allowed[slip](trait.minimum ?? -Infinity, trait.maximum ?? Infinity);
  report(
    line,
    column,
    'IMPORT_OUT_OF_RANGE',
    cell,
    `${value} is outside what "${trait.name}" allows.`,
    `Give ${range}, or match the column to another trait.`,
  );
  return null;
};
