import { decimalIn } from '@linewright/pedigree';
import { dispositionWritten, plainHeader, roleOfCells, roleOfHeader } from '@linewright/repair';
import type { CsvTable } from './csv-table.js';
import type { ImportProblem } from './import-problem.js';
import type { TraitOfPerson } from '../stock/import-and-export-rows.js';
import { type ColumnChoice, ImportColumnRole } from '../stock/rows/import-column-choice.js';

export interface MatchedColumn {
  readonly header: string;
  readonly index: number;
  readonly role: ImportColumnRole;
  /** A trait that is recorded already; `null` for one that the import makes. */
  readonly trait: TraitOfPerson | null;
  readonly traitName: string | null;
  readonly sample: readonly string[];
}

/** A number as the file may write it; the comma is a decimal sign only where it does not separate the columns. */
export const readNumber = (text: string, delimiter: string): number | null =>
  decimalIn(text, { comma: delimiter !== ',' });

/** Cells of a column that its role is guessed by. */
const CELLS_LOOKED_AT = 500;

const sampleOf = (table: CsvTable, index: number): string[] => {
  const sample: string[] = [];
  for (const { cells } of table.rows) {
    const cell = cells[index] ?? '';
    if (cell !== '' && !sample.includes(cell)) sample.push(cell);
    if (sample.length === 3) break;
  }
  return sample;
};

/** A column is taken for a trait when at least half of what it holds are numbers: the rest are then listed as mistakes. */
const looksMeasured = (table: CsvTable, index: number): boolean => {
  let filled = 0;
  let numbers = 0;
  for (const { cells } of table.rows) {
    const cell = cells[index] ?? '';
    if (cell === '') continue;
    filled += 1;
    if (readNumber(cell, table.delimiter) !== null) numbers += 1;
  }
  return filled > 0 && numbers * 2 >= filled;
};

const traitNamed = (traits: readonly TraitOfPerson[], name: string): TraitOfPerson | null => {
  const wanted = plainHeader(name);
  return (
    traits.find((t) => plainHeader(t.name) === wanted || plainHeader(t.key) === wanted) ?? null
  );
};

/** "status" and the like may head anything: taken for what became of the fish only where some cell says such a thing. */
const saysDisposition = (table: CsvTable, header: string, index: number): boolean =>
  plainHeader(header) === 'disposition' ||
  table.rows.some(({ cells }) => dispositionWritten(cells[index] ?? '') !== null);

const columnCells = (table: CsvTable, index: number): string[] =>
  table.rows.slice(0, CELLS_LOOKED_AT).map(({ cells }) => cells[index] ?? '');

/** Gives columns that nobody chose a role, by their headers and else by their cells. */
interface Guessing {
  readonly table: CsvTable;
  readonly traits: readonly TraitOfPerson[];
  readonly used: Set<ImportColumnRole>;
  /** Roles that some header of the file names. */
  readonly named: ReadonlySet<ImportColumnRole | undefined>;
  readonly latestYear: number;
}

const guess = (
  { table, traits, used, named, latestYear }: Guessing,
  header: string,
  index: number,
): ColumnChoice => {
  const byHeader = roleOfHeader(header);
  if (byHeader === 'disposition' && !saysDisposition(table, header, index))
    return { header, role: 'ignore' };
  const byCells =
    byHeader === undefined && traitNamed(traits, header) === null
      ? roleOfCells(columnCells(table, index), latestYear)
      : null;
  const role = byHeader ?? (byCells !== null && !named.has(byCells) ? byCells : undefined);
  if (role !== undefined) {
    if (used.has(role)) return { header, role: 'ignore' };
    used.add(role);
    return { header, role };
  }
  const isTrait =
    plainHeader(header) !== '' &&
    (traitNamed(traits, header) !== null || looksMeasured(table, index));
  return { header, role: isTrait ? 'trait' : 'ignore' };
};

const twice = (header: string, message: string): ImportProblem => ({
  line: 1,
  column: header,
  code: 'IMPORT_COLUMN_TWICE',
  value: header,
  message,
  remedy: 'Choose one of the columns and ignore the other, or rename it in the file.',
});

const choiceProblems = (
  table: CsvTable,
  columns: readonly MatchedColumn[],
  choices: readonly ColumnChoice[],
): ImportProblem[] => {
  const problems: ImportProblem[] = [];
  for (const { header } of choices) {
    if (table.header.includes(header)) continue;
    problems.push({
      line: 1,
      column: header,
      code: 'IMPORT_COLUMN_MISSING',
      value: header,
      message: `The file has no column "${header}".`,
      remedy: 'Match the columns again from the preview of this file.',
    });
  }
  const seen = new Map<string, string>();
  for (const { header, role, trait, traitName } of columns) {
    if (role === 'ignore') continue;
    const what = role === 'trait' ? `trait ${trait?.id ?? plainHeader(traitName ?? header)}` : role;
    const other = seen.get(what);
    if (other !== undefined) {
      problems.push(
        twice(
          header,
          `Columns "${other}" and "${header}" are both read as ${role.replace('_', ' ')}.`,
        ),
      );
    }
    seen.set(what, header);
  }
  if (table.header.length > 0 && !columns.some((c) => c.role === 'tag')) {
    problems.push({
      line: 1,
      column: null,
      code: 'IMPORT_NO_TAG_COLUMN',
      value: table.header.join(', '),
      message: 'No column holds the tag of each fish.',
      remedy: 'Name one column "tag" in the header, or choose the column that holds the tags.',
    });
  }
  return problems;
};

/** Gives every column of the file its role: the one chosen for its header, or else the one its header or its cells suggest. */
export const matchColumns = (
  table: CsvTable,
  choices: readonly ColumnChoice[],
  traits: readonly TraitOfPerson[],
  latestYear: number,
): { columns: MatchedColumn[]; problems: ImportProblem[] } => {
  const chosen = new Map(choices.map((choice) => [choice.header, choice]));
  const used = new Set<ImportColumnRole>(choices.map((choice) => choice.role));
  const named = new Set(table.header.map(roleOfHeader));
  const guessing = { table, traits, used, named, latestYear };
  const columns = table.header.map((header, index): MatchedColumn => {
    const choice = chosen.get(header) ?? guess(guessing, header, index);
    const sample = sampleOf(table, index);
    if (choice.role !== 'trait') {
      return { header, index, role: choice.role, trait: null, traitName: null, sample };
    }
    const wanted = choice.traitName?.trim() ?? '';
    const name = wanted === '' ? header : wanted;
    const trait = traits.find((t) => t.id === choice.traitId) ?? traitNamed(traits, name);
    return { header, index, role: 'trait', trait, traitName: trait?.name ?? name, sample };
  });
  return { columns, problems: choiceProblems(table, columns, choices) };
};
