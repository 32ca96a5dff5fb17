import { isUtf8 } from 'node:buffer';
import { stringify } from 'csv-stringify/sync';
import { readOds } from 'hucre/ods';
import { readXlsx } from 'hucre/xlsx';
import { fromBufferPromise } from 'yauzl';
import { RequestError } from '../errors/request-error.js';
import { beginsAsZip, entriesOf } from '../zip-files/zip-entries.js';
import { LONGEST_FILE } from '../limits/lengths.js';
import { MOST_COLUMNS, MOST_ROWS } from './csv-table.js';

/** One sheet of a workbook, as the CSV file that it would be saved as. */
export interface SheetText {
  readonly name: string;
  readonly text: string;
  /** Rows, the header among them. */
  readonly rows: number;
  /** What was read otherwise than it stands. */
  readonly notes: readonly string[];
}

/** Parts of a workbook, and all that they unpack to: some 100,000 rows of ten cells. */
const MOST_PARTS = 2_000;
const MOST_UNPACKED = 96 * 1024 * 1024;
const MOST_SHEETS = 30;

const AS_CSV = 'Save the sheet as CSV (UTF-8) and choose that file.';

const refusal = (what: string, remedy = AS_CSV): RequestError =>
  new RequestError('IMPORT_UNREADABLE', `This workbook cannot be read: ${what}. ${remedy}`);

interface SheetCell {
  readonly formula?: string;
  readonly type?: string;
}

interface ReadSheet {
  readonly name: string;
  readonly rows: readonly (readonly unknown[])[];
  readonly cells?: ReadonlyMap<string, SheetCell>;
  readonly merges?: readonly { readonly startRow: number; readonly endRow: number }[];
}

const pad = (value: number): string => String(value).padStart(2, '0');

/** A day alone is written as such; workbooks keep days without a zone, and they come as UTC. */
const dateText = (date: Date): string => {
  if (Number.isNaN(date.getTime())) return '';
  const day = date.toISOString().slice(0, 10);
  const [hours, minutes] = [date.getUTCHours(), date.getUTCMinutes()];
  return hours === 0 && minutes === 0 ? day : `${day} ${pad(hours)}:${pad(minutes)}`;
};

/** Digits that a number of 64 bits holds for certain (IEEE 754: 15). */
const SAFE_DIGITS = 15;

const cellText = (value: unknown): string => {
  if (value instanceof Date) return dateText(value);
  if (typeof value === 'number') return String(Number(value.toPrecision(SAFE_DIGITS)));
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'string' ? value.trim() : '';
};

const times = (count: number, one: string, more: string): string =>
  `${count} ${count === 1 ? one : more}`;

const notesOf = ({ cells, merges = [] }: ReadSheet): string[] => {
  const notes: string[] = [];
  const formulas = [...(cells?.values() ?? [])].filter(
    ({ formula }) => formula !== undefined && formula !== '',
  ).length;
  if (formulas > 0)
    notes.push(
      `${times(formulas, 'cell holds a formula', 'cells hold formulas')}: the value last worked out was taken.`,
    );
  if (merges.length > 0)
    notes.push(
      `${times(merges.length, 'group of cells is', 'groups of cells are')} merged: the value stands in the first cell, the others are empty.`,
    );
  return notes;
};

const sheetText = (sheet: ReadSheet, more: readonly string[]): SheetText => {
  const rows = sheet.rows.map((row) => row.map(cellText));
  const width = rows.reduce(
    (most, row) => Math.max(most, row.findLastIndex((cell) => cell !== '') + 1),
    0,
  );
  if (rows.length > MOST_ROWS + 1)
    throw refusal(
      `the sheet "${sheet.name}" has more than ${MOST_ROWS.toLocaleString('en')} rows`,
      'Split it into several files, ancestors first.',
    );
  if (width > MOST_COLUMNS)
    throw refusal(
      `the sheet "${sheet.name}" has more than ${MOST_COLUMNS} columns`,
      'Remove the columns that are not needed.',
    );
  const first = rows.findIndex((row) => row.some((cell) => cell !== ''));
  const told = first <= 0 ? rows : rows.slice(first);
  const last = told.findLastIndex((row) => row.some((cell) => cell !== ''));
  const filled = told
    .slice(0, last + 1)
    .map((row) => Array.from({ length: width }, (_, at) => row[at] ?? ''));
  const text = stringify(filled);
  if (text.length > LONGEST_FILE)
    throw refusal(`the sheet "${sheet.name}" holds too much text`, 'Split it into several files.');
  return { name: sheet.name, text, rows: filled.length, notes: [...notesOf(sheet), ...more] };
};

/** Looks at the parts before anything is unpacked: their number, and what they would grow to. */
const partsOf = async (bytes: Buffer): Promise<ReadonlySet<string>> => {
  const zip = await fromBufferPromise(bytes, {
    ...{ lazyEntries: true, autoClose: false },
    ...{ strictFileNames: true, validateEntrySizes: true },
  }).catch(() => {
    throw refusal('it is not a workbook, or only the beginning of one');
  });
  try {
    const bounds = { mostEntries: MOST_PARTS, mostBytes: MOST_UNPACKED };
    const entries = await entriesOf(zip, bounds, (what) => refusal(what));
    // What a part really unpacks to, without keeping it: more than it says is refused by the reader.
    for (const entry of entries.values()) {
      if (entry.fileName.endsWith('/')) continue;
      const stream = await zip.openReadStreamPromise(entry);
      for await (const piece of stream) void piece;
    }
    return new Set(entries.keys());
  } catch (error) {
    throw error instanceof RequestError ? error : refusal('parts of it are damaged');
  } finally {
    zip.close();
  }
};

const OLD_WORKBOOK = [0xd0, 0xcf, 0x11, 0xe0];

const expectZip = (bytes: Buffer): void => {
  if (OLD_WORKBOOK.every((byte, at) => bytes[at] === byte))
    throw refusal(
      'it has a password, or is of a kind from before 2007',
      'Save it as .xlsx without a password, or as CSV (UTF-8).',
    );
  if (beginsAsZip(bytes)) return;
  throw refusal(
    isUtf8(bytes)
      ? 'it is a text file under another name'
      : 'it is neither an .xlsx nor an .ods file',
    'Choose an .xlsx, .ods or CSV file.',
  );
};

/**
 * Reads the sheets of a workbook (.xlsx, .xlsm, .ods) into texts of CSV: days as `YYYY-MM-DD`, of formulas the value last worked
 * out. Macros are never run. Sheets without a cell are passed over.
 *
 * @throws RequestError `IMPORT_UNREADABLE` for what is no workbook, was cut off, has a password, or is or unpacks to more than the
 * limits. Memory: the bytes and some ten times what they unpack to; run it in a thread with a heap of its own.
 */
export const readSheets = async (given: Uint8Array): Promise<SheetText[]> => {
  const bytes = Buffer.from(given.buffer, given.byteOffset, given.byteLength);
  expectZip(bytes);
  const parts = await partsOf(bytes);
  const isOds = parts.has('content.xml');
  if (!isOds && !parts.has('xl/workbook.xml'))
    throw refusal('it is a ZIP file without a sheet', 'Choose an .xlsx, .ods or CSV file.');
  const read = isOds ? readOds : readXlsx;
  const { sheets } = await read(bytes).catch((error: unknown) => {
    throw refusal(
      error instanceof Error && /cells|range|limit/i.test(error.message)
        ? 'it has far more cells than are filled'
        : 'its parts do not fit together',
    );
  });
  const macros = [...parts].some((part) => /vbaProject\.bin$|^Basic\//i.test(part))
    ? ['The workbook holds macros: they were not run.']
    : [];
  const found = sheets
    .slice(0, MOST_SHEETS)
    .map((sheet) => sheetText(sheet as ReadSheet, macros))
    .filter(({ text }) => text.trim() !== '');
  if (found.length === 0) throw refusal('it has no cell that is filled', 'Choose another file.');
  return found;
};
