import { CareError } from '../care-error.js';

/** Sizes in millimetres. A4: ISO 216. Letter: 8.5 by 11 inches (ANSI Y14.1 size A). */
export const pageSizes = {
  A4: { width: 210, height: 297 },
  LETTER: { width: 215.9, height: 279.4 },
} as const;

export type PageSize = keyof typeof pageSizes;

/** A sheet of equal labels in rows and columns; all lengths in millimetres, from the top left of an upright page. */
export interface LabelSheet {
  readonly page: PageSize;
  readonly rows: number;
  readonly columns: number;
  readonly labelWidth: number;
  readonly labelHeight: number;
  readonly marginTop: number;
  readonly marginLeft: number;
  readonly gapX: number;
  readonly gapY: number;
}

/** One place for a label: page number from 0, and the label's upper left corner and size, mm. */
export interface LabelPlace {
  readonly page: number;
  readonly row: number;
  readonly column: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const evenGrid = (page: PageSize, columns: number, rows: number): LabelSheet => {
  const size = pageSizes[page];
  return {
    page,
    rows,
    columns,
    labelWidth: size.width / columns,
    labelHeight: size.height / rows,
    marginTop: 0,
    marginLeft: 0,
    gapX: 0,
    gapY: 0,
  };
};

const gridsOf = (shapes: readonly (readonly [columns: number, rows: number])[]) =>
  (['A4', 'LETTER'] as const).flatMap((page) =>
    shapes.map(([columns, rows]) => ({
      id: `${page}-${columns}x${rows}`,
      sheet: evenGrid(page, columns, rows),
    })),
  );

/** Grids for cards, which need room to write on. */
export const cardGrids: readonly { readonly id: string; readonly sheet: LabelSheet }[] = gridsOf([
  [2, 2],
  [1, 2],
  [1, 1],
]);

/** Grids that divide the page evenly, with nothing between labels: to start from, or for plain paper and scissors. */
export const plainGrids: readonly { readonly id: string; readonly sheet: LabelSheet }[] = gridsOf([
  [2, 4],
  [2, 7],
  [3, 7],
  [3, 8],
  [4, 10],
]);

/** Rounding of a printed measure: a hair over the edge is no fault. */
const SLACK = 0.05;

/**
 * Checks that a sheet's labels lie on its page and do not overlap.
 *
 * @throws CareError CARE_OUT_OF_RANGE naming the first measure that does not fit.
 */
export function expectSheetFits(sheet: LabelSheet): void {
  const { rows, columns } = sheet;
  const fail = (message: string): never => {
    throw new CareError('CARE_OUT_OF_RANGE', message, { ...sheet });
  };
  for (const [what, value] of Object.entries(sheet)) {
    if (what !== 'page' && !Number.isFinite(value as number))
      fail(`"${String(value)}" (${what}) is not a number.`);
  }
  if (!Number.isInteger(rows) || rows < 1 || rows > 40) fail(`${rows} rows: give 1 to 40.`);
  if (!Number.isInteger(columns) || columns < 1 || columns > 20)
    fail(`${columns} columns: give 1 to 20.`);
  if (sheet.labelWidth < 15 || sheet.labelHeight < 10) {
    fail(
      `A label of ${sheet.labelWidth} by ${sheet.labelHeight} mm holds no code that a phone can read: give at least 15 by 10 mm.`,
    );
  }
  if (sheet.marginTop < 0 || sheet.marginLeft < 0 || sheet.gapX < 0 || sheet.gapY < 0) {
    fail('Margins and gaps cannot be below 0 mm: labels would overlap or leave the page.');
  }
  const page = pageSizes[sheet.page];
  const width = sheet.marginLeft + columns * sheet.labelWidth + (columns - 1) * sheet.gapX;
  const height = sheet.marginTop + rows * sheet.labelHeight + (rows - 1) * sheet.gapY;
  if (width > page.width + SLACK) {
    fail(`${columns} columns need ${width.toFixed(1)} mm, and the page is ${page.width} mm wide.`);
  }
  if (height > page.height + SLACK) {
    fail(`${rows} rows need ${height.toFixed(1)} mm, and the page is ${page.height} mm high.`);
  }
}

/**
 * Where each of `number` labels goes, by rows from the top left, skipping the `skip` places already used on the first
 * sheet.
 *
 * @throws CareError CARE_OUT_OF_RANGE for a sheet that does not fit, or a `skip` that is not on the first sheet.
 * @example labelPlaces(sheet, 1, 3)[0] // first label in the fourth place
 */
export function labelPlaces(sheet: LabelSheet, number: number, skip = 0): LabelPlace[] {
  expectSheetFits(sheet);
  const perPage = sheet.rows * sheet.columns;
  if (!Number.isInteger(skip) || skip < 0 || skip >= perPage) {
    throw new CareError(
      'CARE_OUT_OF_RANGE',
      `The first label cannot go to place ${skip + 1}: the sheet has places 1 to ${perPage}.`,
      { skip },
    );
  }
  return Array.from({ length: number }, (_, index) => {
    const place = (skip + index) % perPage;
    const row = Math.floor(place / sheet.columns);
    const column = place % sheet.columns;
    return {
      page: Math.floor((skip + index) / perPage),
      row,
      column,
      x: sheet.marginLeft + column * (sheet.labelWidth + sheet.gapX),
      y: sheet.marginTop + row * (sheet.labelHeight + sheet.gapY),
      width: sheet.labelWidth,
      height: sheet.labelHeight,
    };
  });
}
