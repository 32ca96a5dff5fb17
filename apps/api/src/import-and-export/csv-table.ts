import { hasBrokenLetters, withoutGuard } from '@linewright/pedigree';
import type { FileRow, FileTable } from '@linewright/repair';
import { CsvError, parse } from 'csv-parse/sync';
import type { ImportProblem } from './import-problem.js';

export type CsvRow = FileRow;

export interface CsvTable extends FileTable {
  readonly delimiter: string;
  /** What is wrong with the file as a whole; rows are looked at by {@link rowProblems}. */
  readonly problems: readonly ImportProblem[];
}

const delimiters = [',', ';', '\t'] as const;

/** Columns, rows and letters of a cell of one file. */
export const MOST_COLUMNS = 200;
export const MOST_ROWS = 200_000;
const LONGEST_RECORD = 100_000;

/** Rows between two words on how far the reading is. */
const REPORT_EVERY = 5_000;

/** The separator that stands most often in the header, outside quotes; a comma when none does. */
const delimiterOf = (text: string): (typeof delimiters)[number] => {
  const counts = { ',': 0, ';': 0, '\t': 0 };
  let quoted = false;
  for (const letter of text) {
    if (letter === '"') quoted = !quoted;
    else if (!quoted && (letter === '\n' || letter === '\r')) break;
    else if (!quoted && letter in counts) counts[letter as keyof typeof counts] += 1;
  }
  return delimiters.reduce((best, d) => (counts[d] > counts[best] ? d : best));
};

const LINE_END = /\r\n|\n|\r/g;

/** A row as the parser gives it, with the text that it stood in. */
interface RawRecord {
  readonly record: readonly string[];
  readonly raw: string;
}

const readRecords = (
  text: string,
  delimiter: string,
  onShare: (share: number) => void,
): CsvRow[] => {
  let read = 0;
  let next = 1;
  const rows: CsvRow[] = [];
  // Rows are taken as they come: kept by the parser with their raw text, they would be most of the memory.
  const take = ({ record, raw }: RawRecord, { bytes }: { bytes: number }): null => {
    if (++read % REPORT_EVERY === 0) onShare(Math.min(1, bytes / text.length));
    const cells = record.map(withoutGuard);
    if (cells.some((cell) => cell !== '')) rows.push({ line: next, cells });
    next += raw.match(LINE_END)?.length ?? 0;
    return null;
  };
  parse(text, {
    delimiter,
    on_record: take as never,
    info: false,
    max_record_size: LONGEST_RECORD,
    raw: true,
    record_delimiter: ['\r\n', '\n', '\r'],
    relax_column_count: true,
    skip_empty_lines: false,
    trim: true,
  });
  return rows;
};

const tooLarge = (message: string, remedy: string): ImportProblem => ({
  ...{ line: 1, column: null, code: 'IMPORT_TOO_LARGE', value: null, message, remedy },
});

/** Looked for before the table is built: one that is far too wide or long would be the whole memory. */
const sizeProblem = (plain: string, delimiter: string): ImportProblem | null => {
  const end = plain.search(/[\r\n]/);
  const header = plain.slice(0, end < 0 ? LONGEST_RECORD : Math.min(end, LONGEST_RECORD));
  const columns = header.split(delimiter).length;
  if (columns > MOST_COLUMNS || end > LONGEST_RECORD)
    return tooLarge(
      `The first line has more than ${MOST_COLUMNS} columns.`,
      'Remove the columns that are not needed, or check whether the file uses another separator.',
    );
  let rows = 0;
  const ends = plain.matchAll(LINE_END);
  while (rows <= MOST_ROWS + 1 && ends.next().done !== true) rows += 1;
  if (rows <= MOST_ROWS + 1) return null;
  return tooLarge(
    `The file has more than ${MOST_ROWS.toLocaleString('en')} rows.`,
    'Split it into several files, ancestors first.',
  );
};

const unreadable = (error: CsvError): ImportProblem => ({
  line: typeof error['lines'] === 'number' ? error['lines'] : 1,
  column: null,
  code: 'IMPORT_UNREADABLE',
  value: null,
  message: `The file cannot be read as a table from here on: ${error.message}.`,
  remedy:
    'Look for a quotation mark that is opened and not closed, or save the sheet again as CSV (UTF-8).',
});

/** Letters that were lost before the file came here cannot be guessed. */
const brokenLetters = (header: readonly string[], rows: readonly CsvRow[]): ImportProblem[] =>
  rows.flatMap(({ line, cells }) =>
    cells.flatMap((cell, index): ImportProblem[] =>
      hasBrokenLetters(cell)
        ? [
            {
              line,
              column: header[index] ?? null,
              code: 'IMPORT_BROKEN_LETTERS',
              value: cell,
              message: `"${cell.replace(/\p{Cc}/gu, '\uFFFD')}" holds a letter that cannot be read.`,
              remedy: 'Save the sheet again as CSV (UTF-8), or correct the cell.',
            },
          ]
        : [],
    ),
  );

/** Separators after the last header make a nameless last column in some spreadsheets; it holds nothing. */
const lengthProblems = (header: readonly string[], rows: readonly CsvRow[]): ImportProblem[] =>
  rows
    .filter(
      ({ cells }) =>
        cells.length < header.length || cells.slice(header.length).some((cell) => cell !== ''),
    )
    .map(({ line, cells }) => ({
      line,
      column: null,
      code: 'IMPORT_ROW_LENGTH',
      value: null,
      message: `The row has ${cells.length} cells, the header has ${header.length}.`,
      remedy: 'Add the missing separators, or put quotation marks around a cell that holds one.',
    }));

/** What is wrong with rows by themselves: too short or too long, or with letters that were lost. Cost: linear in the cells. */
export const rowProblems = ({ header, rows, problems }: CsvTable): ImportProblem[] =>
  problems.length > 0
    ? []
    : [
        ...lengthProblems(header, rows),
        ...brokenLetters(header, [{ line: 1, cells: header }, ...rows]),
      ];

/**
 * Reads delimited text (RFC 4180 quoting; comma, semicolon or tab; any line ends; a byte order mark is passed over) and
 * keeps for every row the line it begins on. `separator` stands in for the one that would be found. Blank lines are passed over. The apostrophe before what a spreadsheet would
 * run is taken away. Cost: linear in the text.
 */
export const readTable = (
  text: string,
  onShare: (share: number) => void = () => undefined,
  separator: string | null = null,
): CsvTable => {
  const plain = text.replace(/^\uFEFF/, '');
  const delimiter = separator ?? delimiterOf(plain);
  const size = sizeProblem(plain, delimiter);
  if (size !== null) return { delimiter, header: [], rows: [], problems: [size] };
  try {
    const [first, ...rows] = readRecords(plain, delimiter, onShare);
    if (first === undefined) {
      return { delimiter, header: [], rows: [], problems: [emptyFile('The file is empty.')] };
    }
    const problems = rows.length === 0 ? [emptyFile('The file has a header and no rows.')] : [];
    return { delimiter, header: first.cells, rows, problems };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return { delimiter, header: [], rows: [], problems: [unreadable(error)] };
  }
};

const emptyFile = (message: string): ImportProblem => ({
  line: 1,
  column: null,
  code: 'IMPORT_EMPTY',
  value: null,
  message,
  remedy:
    'Give a file whose first line names the columns (tag, sire, dam, sex, hatch_date, line) and one fish a row.',
});
