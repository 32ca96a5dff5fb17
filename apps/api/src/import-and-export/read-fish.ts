import { isCalendarDate } from '@linewright/pedigree';
import { type ScoreSlip, scoreSlip } from '@linewright/merit';
import { daySlip, timeSlipText } from '../clock/expect-happened.js';
import type { FishSex } from '../stock/rows/fish.entity.js';
import type { CsvRow, CsvTable } from './csv-table.js';
import { type MatchedColumn, readNumber } from './import-columns.js';
import { type ImportColumnRole } from '../stock/rows/import-column-choice.js';
import { LENGTHS } from '../limits/lengths.js';
import type { ImportNote, ImportProblem, ImportProblemCode } from './import-problem.js';
import type { RecordedStock } from './recorded-stock.js';
import { withParentsOfSpawn } from './spawn-column.js';
import { Spellings } from './spellings.js';
import { namesSummary } from './summary-row.js';
import type { ReadFish } from './fish-row.js';

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

/** Ways in which pedigree files say that a parent is not known, unless a fish in the file has that tag. */
const notKnown = new Set(['0', 'na', 'n/a', '?', '-', 'unknown']);

const yesNo: Readonly<Record<string, boolean>> = {
  yes: true,
  y: true,
  true: true,
  x: true,
  '1': true,
  unrelated: true,
  no: false,
  n: false,
  false: false,
  '0': false,
};

const SPAWN_TAG_LENGTH = 60;

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
  latestDay: string,
  report: Report,
): string | null => {
  if (cell === '') return null;
  const slip = isCalendarDate(cell) ? daySlip(cell, latestDay) : 'no-day';
  if (slip === null) return cell;
  const [is, remedy] =
    slip === 'no-day'
      ? [
          'is not a calendar day written year-month-day.',
          'Write it as year-month-day, for example 2026-03-14, or leave the cell empty.',
        ]
      : [`is ${timeSlipText[slip]}`, 'Correct the day, or leave the cell empty.'];
  report(line, column, 'IMPORT_BAD_DATE', cell, `"${cell}" ${is}`, remedy);
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

const allowed: Readonly<
  Record<Exclude<ScoreSlip, 'not-a-number'>, (low: number, high: number) => string>
> = {
  'not-yes-or-no': () => '1 for yes or 0 for no',
  'not-whole': () => 'a whole number',
  below: (low, high) => `a value from ${low} to ${high}`,
  above: (low, high) => `a value from ${low} to ${high}`,
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

const columnOf = (columns: readonly MatchedColumn[], role: ImportColumnRole) =>
  columns.find((column) => column.role === role);

/** How the rows of a file are read: which column is what, and how tags and codes are written. */
class RowReader {
  readonly problems: ImportProblem[] = [];
  readonly summaries: ImportNote[] = [];
  readonly tags: Spellings;
  readonly lines: Spellings;
  readonly spawns: Spellings;
  readonly column: Record<Exclude<ImportColumnRole, 'trait' | 'ignore'>, MatchedColumn | undefined>;
  private readonly traits: readonly MatchedColumn[];
  private readonly ownTags: ReadonlySet<string>;
  private readonly named: ReadonlySet<string>;

  constructor(
    private readonly table: CsvTable,
    columns: readonly MatchedColumn[],
    private readonly stock: RecordedStock,
    private readonly latestDay: string,
  ) {
    this.column = {
      tag: columnOf(columns, 'tag'),
      sire: columnOf(columns, 'sire'),
      dam: columnOf(columns, 'dam'),
      sex: columnOf(columns, 'sex'),
      hatch_date: columnOf(columns, 'hatch_date'),
      line: columnOf(columns, 'line'),
      spawn: columnOf(columns, 'spawn'),
      unrelated: columnOf(columns, 'unrelated'),
    };
    this.traits = columns.filter((column) => column.role === 'trait');
    this.tags = new Spellings(stock.fish.keys());
    this.lines = new Spellings(stock.lines.keys());
    this.spawns = new Spellings(stock.spawnsByTag.keys());
    this.ownTags = new Set(table.rows.map((row) => this.cell(row, 'tag')));
    for (const tag of this.ownTags) if (tag !== '') this.tags.add(tag);
    this.named = new Set(
      table.rows.flatMap((row) => [this.cell(row, 'sire'), this.cell(row, 'dam')]),
    );
  }

  readonly report: Report = (line, column, code, value, message, remedy) =>
    this.problems.push({ line, column: column?.header ?? null, code, value, message, remedy });

  /** The fish of a row; `null` for one without a tag, and for a sum under the table. */
  read(row: CsvRow): ReadFish | null {
    const { line } = row;
    const { tag: tagColumn, sex, hatch_date: hatched } = this.column;
    const written = this.cell(row, 'tag');
    if (written === '') {
      const message = 'The fish has no tag.';
      const remedy = 'Give it a tag, or remove the row.';
      this.report(line, tagColumn ?? null, 'IMPORT_TAG_MISSING', null, message, remedy);
      return null;
    }
    if (written.length > LENGTHS.word) {
      const message = `The tag has ${written.length} characters.`;
      const remedy = `Give a tag of at most ${LENGTHS.word} characters.`;
      const shown = written.slice(0, LENGTHS.word);
      this.report(line, tagColumn ?? null, 'IMPORT_TAG_LONG', shown, message, remedy);
      return null;
    }
    if (this.isSummary(row, written)) {
      this.summaries.push({
        line,
        column: tagColumn?.header ?? null,
        code: 'IMPORT_SUMMARY_ROW',
        message: `"${written}" looks like a sum of the rows and is not imported. If it is a fish, give it a sex, a hatch date or a parent in the file.`,
      });
      return null;
    }
    const scores = this.traits.flatMap((column) => {
      const text = row.cells[column.index] ?? '';
      const { delimiter } = this.table;
      const value = text === '' ? null : readScore(text, line, column, delimiter, this.report);
      return value === null ? [] : [{ column, value }];
    });
    return {
      line,
      tag: this.tags.read(written, line),
      written,
      sire: this.parent(row, 'sire'),
      dam: this.parent(row, 'dam'),
      sex: sex ? readSex(this.cell(row, 'sex'), line, sex, this.report) : null,
      hatchDate: hatched
        ? readDate(this.cell(row, 'hatch_date'), line, hatched, this.latestDay, this.report)
        : null,
      lineCode: this.lineCode(row),
      spawn: this.spawn(row),
      unrelated: this.unrelated(row),
      scores,
    };
  }

  private cell(row: CsvRow, role: keyof RowReader['column']): string {
    const column = this.column[role];
    return column === undefined ? '' : (row.cells[column.index] ?? '');
  }

  private isNotKnown(text: string): boolean {
    return text === '' || (notKnown.has(text.toLowerCase()) && !this.ownTags.has(text));
  }

  private parent(row: CsvRow, role: 'sire' | 'dam'): string | null {
    const text = this.cell(row, role);
    return this.isNotKnown(text) ? null : this.tags.read(text, row.line);
  }

  private lineCode(row: CsvRow): string | null {
    const column = this.column.line;
    if (column === undefined) return null;
    const text = this.lines.read(this.cell(row, 'line'), row.line);
    const code = this.stock.lines.has(text)
      ? text
      : readLineCode(text, row.line, column, this.report);
    if (code !== null) this.lines.add(code);
    return code;
  }

  private spawn(row: CsvRow): string | null {
    const text = this.cell(row, 'spawn');
    if (text === '' || notKnown.has(text.toLowerCase())) return null;
    if (text.length <= SPAWN_TAG_LENGTH) {
      const tag = this.spawns.read(text, row.line);
      this.spawns.add(tag);
      return tag;
    }
    this.report(
      row.line,
      this.column.spawn ?? null,
      'IMPORT_TAG_LONG',
      text.slice(0, SPAWN_TAG_LENGTH),
      `The spawn has ${text.length} characters.`,
      `Give it a tag of at most ${SPAWN_TAG_LENGTH} characters.`,
    );
    return null;
  }

  private unrelated(row: CsvRow): boolean | null {
    const text = this.cell(row, 'unrelated');
    if (text === '') return null;
    const said = yesNo[text.toLowerCase()];
    if (said !== undefined) return said;
    this.report(
      row.line,
      this.column.unrelated ?? null,
      'IMPORT_BAD_YES_NO',
      text,
      `"${text}" is neither yes nor no.`,
      'Write yes when the unknown parents of this fish are known to be unrelated to the other fish; otherwise leave the cell empty.',
    );
    return null;
  }

  /** Named like a sum, and nothing about it says that it is a fish. */
  private isSummary(row: CsvRow, tag: string): boolean {
    if (!namesSummary(tag) || this.named.has(tag) || this.stock.fish.has(tag)) return false;
    const isFish = (text: string): boolean =>
      !this.isNotKnown(text) && (this.ownTags.has(text) || this.stock.fish.has(text));
    return (
      sexes[this.cell(row, 'sex').toLowerCase()] === undefined &&
      !isCalendarDate(this.cell(row, 'hatch_date')) &&
      !isFish(this.cell(row, 'sire')) &&
      !isFish(this.cell(row, 'dam'))
    );
  }

  /** Rows of which nothing but the tag is filled, and that no other row names: a fish, or a remark under the table. */
  onlyTags(fish: readonly ReadFish[]): ImportNote[] {
    const header = this.column.tag?.header ?? null;
    if (this.table.header.length < 2) return [];
    const bare = fish.filter(
      (one) =>
        one.sire === null &&
        one.dam === null &&
        one.sex === null &&
        one.hatchDate === null &&
        one.lineCode === null &&
        one.spawn === null &&
        one.unrelated === null &&
        one.scores.length === 0 &&
        !this.named.has(one.written) &&
        !this.stock.fish.has(one.tag),
    );
    const [first] = bare;
    if (first === undefined) return [];
    const some = bare
      .slice(0, 5)
      .map((one) => `"${one.written}"`)
      .join(', ');
    const more = bare.length > 5 ? ` and ${bare.length - 5} more` : '';
    return [
      {
        line: first.line,
        column: header,
        code: 'IMPORT_ONLY_TAG',
        message: `${bare.length === 1 ? 'One row has only a tag and becomes a fish' : `${bare.length} rows have only a tag and become fish`}: ${some}${more}. Remove what is not a fish from the file.`,
      },
    ];
  }
}

export interface ReadRows {
  readonly fish: readonly ReadFish[];
  readonly problems: readonly ImportProblem[];
  /** By line. */
  readonly notes: readonly ImportNote[];
  /** Rows that are no fish: sums under the table. */
  readonly skippedRows: number;
}

/** Reads the cells of every row; a cell that cannot be read is reported and taken as empty. Cost: linear in the cells. */
export const readFish = (
  table: CsvTable,
  columns: readonly MatchedColumn[],
  stock: RecordedStock,
  latestDay: string,
): ReadRows => {
  const reader = new RowReader(table, columns, stock, latestDay);
  const { tag, line } = reader.column;
  if (tag === undefined) return { fish: [], problems: [], notes: [], skippedRows: 0 };
  const rows = table.rows.flatMap((row) => reader.read(row) ?? []);
  const fish = withParentsOfSpawn(rows, stock.spawnsByTag, (one, role, ...told) =>
    reader.report(one.line, reader.column[role] ?? null, ...told),
  );
  const notes = [
    ...reader.summaries,
    ...reader.tags.notes(tag.header, 'tag'),
    ...reader.lines.notes(line?.header ?? '', 'line'),
    ...reader.spawns.notes(reader.column.spawn?.header ?? '', 'spawn'),
    ...reader.onlyTags(fish),
  ].sort((a, b) => a.line - b.line);
  return { fish, problems: reader.problems, notes, skippedRows: reader.summaries.length };
};
