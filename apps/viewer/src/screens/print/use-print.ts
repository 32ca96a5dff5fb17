import { useState } from 'react';
import { wholeNumber } from '../../components/field-rules.js';
import type { Problem } from '../../api/problem.js';
import { fetchPdf } from './fetch-pdf.js';
import { sheetFrom, sheetQuery, usualGrid, type PrintKind, type SheetText } from './sheet-text.js';
import { usePrintables } from './use-printables.js';

/** What each kind is printed of, as the address of the PDF and of this page names it. */
export const record: Record<PrintKind, string> = {
  'jar-labels': 'fish',
  'vessel-labels': 'vessel',
  'spawn-cards': 'spawn',
  'line-cards': 'line',
};

const ownSheet: Omit<SheetText, 'grid'> = {
  page: 'A4',
  rows: '7',
  columns: '3',
  labelWidth: '64',
  labelHeight: '38',
  marginTop: '15',
  marginLeft: '7',
  gapX: '2',
  gapY: '0',
};

/** What of the records is printed: what was asked for, until some are chosen by hand. */
function usePicked(kind: PrintKind, search: URLSearchParams) {
  const printables = usePrintables(kind, search);
  const named = kind === 'jar-labels' ? null : search.get(record[kind]);
  // Nothing chosen by hand yet: all that were asked for.
  const [chosen, setChosen] = useState<ReadonlySet<string> | null>(null);
  const usual = printables.list
    .filter(({ id }) => named === null || id === named)
    .map(({ id }) => id);
  const ids =
    chosen ?? new Set(kind === 'spawn-cards' && named === null ? usual.slice(0, 1) : usual);
  const picked = printables.list.filter(({ id }) => ids.has(id));
  return { printables, ids, setChosen, picked };
}

/** The sheet that is printed on, and the place it begins at. */
function useSheet(kind: PrintKind) {
  const [text, setText] = useState<SheetText>({ ...ownSheet, grid: usualGrid(kind) });
  const [start, setStart] = useState('1');
  const sheet = sheetFrom(text, kind);
  const perPage = typeof sheet === 'string' ? 1 : sheet.rows * sheet.columns;
  const skip = Math.min(perPage, wholeNumber(1).safeParse(start).data ?? 1) - 1;
  return { text, setText, start, setStart, sheet, skip };
}

/** All that is chosen for a print, and the making of it. */
export function usePrint(kind: PrintKind, search: URLSearchParams) {
  const which = usePicked(kind, search);
  const sheet = useSheet(kind);
  const [address, setAddress] = useState('');
  const [problem, setProblem] = useState<Problem | null>(null);
  const [made, setMade] = useState(false);
  const print = async () => {
    const query = sheetQuery(sheet.text, kind);
    query.set(record[kind], which.picked.map(({ id }) => id).join(','));
    query.set('start', String(sheet.skip + 1));
    if (address.trim() !== '') query.set('address', address.trim());
    setMade(false);
    const refused = await fetchPdf(`/export/print/${kind}.pdf`, query, kind);
    setProblem(refused);
    setMade(refused === null);
  };
  return { which, sheet, address, setAddress, problem, made, print };
}

export type Print = ReturnType<typeof usePrint>;
