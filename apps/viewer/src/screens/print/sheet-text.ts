import {
  CareError,
  type LabelSheet,
  type PageSize,
  cardGrids,
  expectSheetFits,
  plainGrids,
} from '@linewright/care';
import { toNumber } from '../../components/field-rules.js';

export type PrintKind = 'jar-labels' | 'vessel-labels' | 'spawn-cards' | 'line-cards';

const isLabel = (kind: PrintKind): boolean => kind.endsWith('-labels');

/** A sheet as typed: a named grid, or measures in millimetres. */
export interface SheetText {
  readonly grid: string;
  readonly page: string;
  readonly rows: string;
  readonly columns: string;
  readonly labelWidth: string;
  readonly labelHeight: string;
  readonly marginTop: string;
  readonly marginLeft: string;
  readonly gapX: string;
  readonly gapY: string;
}

export const OWN = 'own';

export const measureNames = [
  'rows',
  'columns',
  'labelWidth',
  'labelHeight',
  'marginTop',
  'marginLeft',
  'gapX',
  'gapY',
] as const;

export const gridsFor = (kind: PrintKind) => (isLabel(kind) ? plainGrids : cardGrids);

export const usualGrid = (kind: PrintKind): string => (isLabel(kind) ? 'A4-3x8' : 'A4-2x2');

/** "A4, 3 across and 8 down, 70 by 37.1 mm". */
export const gridWords = ({ page, columns, rows, labelWidth, labelHeight }: LabelSheet): string => {
  const mm = (value: number) => String(Math.round(value * 10) / 10);
  return `${page === 'A4' ? 'A4' : 'Letter'}, ${columns} across and ${rows} down, ${mm(labelWidth)} by ${mm(labelHeight)} mm`;
};

/** The sheet, or what is wrong with it. */
export function sheetFrom(text: SheetText, kind: PrintKind): LabelSheet | string {
  const named = gridsFor(kind).find(({ id }) => id === text.grid);
  if (named !== undefined) return named.sheet;
  const measures = Object.fromEntries(
    measureNames.map((name) => [name, toNumber(text[name])]),
  ) as Omit<LabelSheet, 'page'>;
  const sheet: LabelSheet = { page: text.page as PageSize, ...measures };
  try {
    expectSheetFits(sheet);
    return sheet;
  } catch (error) {
    if (error instanceof CareError) return error.message;
    throw error;
  }
}

/** Query of the PDF's address. */
export function sheetQuery(text: SheetText, kind: PrintKind): URLSearchParams {
  if (gridsFor(kind).some(({ id }) => id === text.grid)) {
    return new URLSearchParams({ grid: text.grid });
  }
  return new URLSearchParams({
    page: text.page,
    ...Object.fromEntries(measureNames.map((name) => [name, text[name].trim()])),
  });
}
