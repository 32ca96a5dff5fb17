import { decimalIn } from '@linewright/pedigree';
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

const words: Readonly<Partial<Record<ImportColumnRole, readonly string[]>>> = {
  tag: ['tag', 'id', 'fish', 'fish tag', 'fish id'],
  sire: ['sire', 'father', 'sire tag', 'sire id', 'father tag', 'father id'],
  dam: ['dam', 'mother', 'dam tag', 'dam id', 'mother tag', 'mother id'],
  sex: ['sex'],
  hatch_date: [
    'hatch date',
    'hatched',
    'hatched on',
    'date hatched',
    'born',
    'born on',
    'birth date',
    'date of birth',
  ],
  line: ['line', 'line code', 'strain'],
  spawn: ['spawn', 'spawn tag', 'brood', 'sibs', 'siblings'],
  unrelated: ['unrelated', 'unrelated founder'],
};

/** Headers are compared without regard to capitals, underscores and punctuation. */
export const plainHeader = (header: string): string =>
  header
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

const roleByWord = new Map(
  Object.entries(words).flatMap(([role, list]) =>
    list.map((word) => [word, role as ImportColumnRole] as const),
  ),
);

/** The role that a header stands for by itself, or `undefined`. */
export const roleOfHeader = (header: string): ImportColumnRole | undefined =>
  roleByWord.get(plainHeader(header));

/** A number as the file may write it; the comma is a decimal sign only where it does not separate the columns. */
export const readNumber = (text: string, delimiter: string): number | null =>
  decimalIn(text, { comma: delimiter !== ',' });

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

const guess = (
  table: CsvTable,
  header: string,
  index: number,
  traits: readonly TraitOfPerson[],
  used: Set<ImportColumnRole>,
): ColumnChoice => {
  const role = roleOfHeader(header);
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

/** Gives every column of the file its role: the one chosen for its header, or else the one its header suggests. */
export const matchColumns = (
  table: CsvTable,
  choices: readonly ColumnChoice[],
  traits: readonly TraitOfPerson[],
): { columns: MatchedColumn[]; problems: ImportProblem[] } => {
  const chosen = new Map(choices.map((choice) => [choice.header, choice]));
  const used = new Set<ImportColumnRole>(choices.map((choice) => choice.role));
  const columns = table.header.map((header, index): MatchedColumn => {
    const choice = chosen.get(header) ?? guess(table, header, index, traits, used);
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
