import { type LabelSheet, type PageSize, cardGrids, pageSizes, plainGrids } from '@linewright/care';
import { decimalIn } from '@linewright/pedigree';
import { fieldError } from '../errors/request-error.js';
import { isUuid } from '../limits/is-uuid.js';
import { LENGTHS, MOST_IDS } from '../limits/lengths.js';

export type PrintQuery = Readonly<Record<string, string | undefined>>;

/** A parameter sent twice is read as one list. */
export const plainQuery = (query: Readonly<Record<string, unknown>>): PrintQuery =>
  Object.fromEntries(
    Object.entries(query).map(([key, value]) => [
      key,
      Array.isArray(value) ? value.join(',') : typeof value === 'string' ? value : undefined,
    ]),
  );

const number = (query: PrintQuery, field: string): number => {
  const text = query[field]?.trim() ?? '';
  const value = decimalIn(text);
  if (value !== null) return value;
  throw fieldError({
    field,
    message: `"${text}" (${field}) is not a number: give it in millimetres.`,
  });
};

/** The sheet of a request: a named grid (`grid=A4-3x8`), or its measures one by one. */
export const sheetOf = (query: PrintQuery, fallback: string): LabelSheet => {
  if (query['rows'] === undefined) {
    const id = query['grid'] ?? fallback;
    const found = [...plainGrids, ...cardGrids].find((grid) => grid.id === id);
    if (found !== undefined) return found.sheet;
    throw fieldError({
      field: 'grid',
      message: `There is no grid "${id}": give the measures instead.`,
    });
  }
  const page = query['page'] ?? 'A4';
  if (!(page in pageSizes)) {
    throw fieldError({
      field: 'page',
      message: `"${page}" is not a page size: give A4 or LETTER.`,
    });
  }
  return {
    page: page as PageSize,
    rows: number(query, 'rows'),
    columns: number(query, 'columns'),
    labelWidth: number(query, 'labelWidth'),
    labelHeight: number(query, 'labelHeight'),
    marginTop: number(query, 'marginTop'),
    marginLeft: number(query, 'marginLeft'),
    gapX: number(query, 'gapX'),
    gapY: number(query, 'gapY'),
  };
};

/** Place of the first label, 1 when absent; answers how many places to skip. */
export const skipOf = (query: PrintQuery): number =>
  query['start'] === undefined ? 0 : number(query, 'start') - 1;

export const idsOf = (text: string | undefined, field: string): string[] => {
  const ids = (text ?? '').split(',').filter((id) => id !== '');
  if (ids.length > MOST_IDS) {
    const message = `${ids.length} records are chosen: choose at most ${MOST_IDS} for one print.`;
    throw fieldError({ field, message });
  }
  const wrong = ids.find((id) => !isUuid(id))?.slice(0, LENGTHS.word);
  if (wrong === undefined) return ids;
  throw fieldError({ field, message: `"${wrong}" is not the id of a record.` });
};
