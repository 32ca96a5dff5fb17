import { looseSpelling } from '@linewright/pedigree';
import { daysWritten, sexWritten } from '@linewright/repair';
import type { CsvRow, CsvTable } from './csv-table.js';
import type { MatchedColumn } from './import-columns.js';
import { type ImportColumnRole } from '../stock/rows/import-column-choice.js';
import { LENGTHS } from '../limits/lengths.js';
import type { ImportNote, ImportProblem } from './import-problem.js';
import {
  type Reading,
  type Report,
  readDate,
  readDisposition,
  readLineCode,
  readScore,
  readSex,
  readText,
  reportKeeper,
} from './read-cell.js';
import type { RecordedStock } from './recorded-stock.js';
import { withParentsOfSpawn } from './spawn-column.js';
import { Spellings } from './spellings.js';
import { namesSummary } from './summary-row.js';
import type { ReadFish } from './fish-row.js';

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
    private readonly reading: Reading,
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
      name: columnOf(columns, 'name'),
      note: columnOf(columns, 'note'),
      disposition: columnOf(columns, 'disposition'),
      origin: columnOf(columns, 'origin'),
      keeper: columnOf(columns, 'keeper'),
      vessel: columnOf(columns, 'vessel'),
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

  readonly report: Report = (line, column, code, value, message, remedy, offers = []) =>
    this.problems.push({
      ...{ line, column: column?.header ?? null, code, value, message, remedy },
      ...(offers.length > 0 && { offers }),
    });

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
        value: written,
        remedy: '',
        message: `"${written}" looks like a sum of the rows and is not imported. If it is a fish, say so, or give it a sex, a hatch date or a parent.`,
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
        ? readDate(this.cell(row, 'hatch_date'), line, hatched, this.reading, this.report)
        : null,
      lineCode: this.lineCode(row),
      spawn: this.spawn(row),
      unrelated: this.unrelated(row),
      ...this.toldOfFish(row),
      scores,
    };
  }

  /** Name, note, where it is from, what became of it and with whom it swims. */
  private toldOfFish(
    row: CsvRow,
  ): Pick<ReadFish, 'name' | 'note' | 'origin' | 'disposition' | 'swimsWithId' | 'vessel'> {
    const { disposition } = this.column;
    const keeper = this.keeper(row);
    const note = this.text(row, 'note', LENGTHS.note);
    return {
      name: this.text(row, 'name', LENGTHS.name),
      note: keeper.note === undefined ? note : [note, keeper.note].filter(Boolean).join(' '),
      origin: this.text(row, 'origin', LENGTHS.sentence),
      disposition: disposition
        ? readDisposition(this.cell(row, 'disposition'), row.line, disposition, this.report)
        : null,
      swimsWithId: keeper.id,
      vessel: this.text(row, 'vessel', LENGTHS.word),
    };
  }

  private text(
    row: CsvRow,
    role: 'name' | 'note' | 'origin' | 'vessel',
    most: number,
  ): string | null {
    const column = this.column[role];
    return column === undefined
      ? null
      : readText(this.cell(row, role), row.line, column, most, this.report);
  }

  /** With whom it swims; `undefined` where the file does not say. */
  private keeper(row: CsvRow): { id: string | null | undefined; note?: string } {
    const { keeper } = this.column;
    const text = this.cell(row, 'keeper');
    if (keeper === undefined || text === '') return { id: undefined };
    const loose = looseSpelling(text);
    if (loose === 'me' || loose === 'here') return { id: this.stock.personId };
    const id = this.stock.people.get(loose);
    if (id !== undefined) return { id };
    if (this.reading.keepersIntoNote) return { id: null, note: `Kept by ${text}.` };
    reportKeeper(text, row.line, keeper, this.report);
    return { id: undefined };
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
    if (this.reading.fishLines.has(row.line)) return false;
    const isFish = (text: string): boolean =>
      !this.isNotKnown(text) && (this.ownTags.has(text) || this.stock.fish.has(text));
    return (
      sexWritten(this.cell(row, 'sex')) === null &&
      daysWritten(this.cell(row, 'hatch_date'), null, this.reading.latestYear).length === 0 &&
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
        one.name === null &&
        one.note === null &&
        one.origin === null &&
        one.disposition === null &&
        one.swimsWithId === undefined &&
        one.scores.length === 0 &&
        !this.named.has(one.written) &&
        !this.stock.fish.has(one.tag),
    );
    return bare.map((one) => ({
      line: one.line,
      column: header,
      code: 'IMPORT_ONLY_TAG',
      value: one.written,
      message: `"${one.written}" has only a tag and becomes a fish.`,
      remedy: 'Leave the row out if it is not a fish.',
    }));
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
  reading: Reading,
): ReadRows => {
  const reader = new RowReader(table, columns, stock, reading);
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
