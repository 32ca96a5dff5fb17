import { writeXlsx } from 'hucre/xlsx';

/** The columns of a keeper's own sheet. */
const HEADER = [
  ...['Tag No.', 'Name', 'Father', 'Mother', 'M/F', 'DOB', 'Strain', 'Status'],
  ...['Bought from', 'Kept by', 'Remarks', 'Length mm'],
];

const number = (k: number): string => String(k).padStart(3, '0');

/** A day of the first twelve of a month, written day first: nothing in the file proves the order. */
const day = (year: number, k: number): string => `${1 + (k % 12)}/${1 + (k % 11)}/${year}`;

const founder = (k: number): string[] => [
  ...[`R-${number(k)}`, k === 1 ? 'Ruby' : '', '', '', k % 2 === 1 ? 'm' : 'f', day(2023, k)],
  ...[k % 2 === 1 ? 'RED' : 'BLUE', 'keeper', 'a show', '', '', '41.5'],
];

const FOUNDERS = 20;

/** What is wrong in some of the rows: the cell of that column stands there instead. */
const slips: readonly (readonly [column: string, text: string, every: number, from: number])[] = [
  ['M/F', 'boy', 23, 3],
  ['M/F', 'girl', 29, 4],
  ['Father', 'R-OO1', 40, 5],
  ['Father', 'OLD-7', 70, 6],
  ['Length mm', '40 mm', 27, 7],
  ['Strain', 'RED DRAGON', 50, 8],
  ['Strain', 'BLU', 60, 9],
  ['Kept by', 'A friend by the sea', 55, 10],
  ['Status', 'sold to a neighbour', 80, 11],
  ['DOB', '31/2/2024', 120, 12],
];

const young = (k: number): string[] => {
  const row = [
    ...[`R-${number(k)}`, '', 'R-001', 'R-002', k % 2 === 0 ? 'm' : 'f', day(2024, k)],
    ...['RED', k % 9 === 0 ? 'dead' : '', '', '', k % 13 === 0 ? 'wide fins' : '', '39'],
  ];
  for (const [column, text, every, from] of slips)
    if (k % every === from) row[HEADER.indexOf(column)] = text;
  return row;
};

/** A sheet of 300 fish as a keeper may have it: days written day first, and each fault that people make, some of them often. */
export const messyRows = (): string[][] => [
  HEADER,
  ...Array.from({ length: FOUNDERS }, (_, k) => founder(k + 1)),
  ...Array.from({ length: 300 - FOUNDERS }, (_, k) => young(k + 1 + FOUNDERS)),
  ['r-015', '', '', '', 'm', day(2023, 15), 'RED', 'keeper', '', '', '', ''],
  ['Total', '', '', '', '', '', '', '', '', '', '', '12000'],
  ['seen by the vet', ...Array.from({ length: HEADER.length - 1 }, () => '')],
];

/** The same as a workbook, with a second sheet that holds no fish. */
export const messyWorkbook = (): Promise<Uint8Array> =>
  writeXlsx({
    sheets: [
      { name: 'Notes', rows: [['Bought a new heater']] },
      { name: 'Fish', rows: messyRows() },
    ],
  });

/** The same as a CSV file with semicolons, in Windows-1252. */
export const messyCsv = (): Buffer =>
  Buffer.from(
    messyRows()
      .map((row) => row.join(';'))
      .join('\r\n')
      .replace('a show', 'a show in Köln'),
    'latin1',
  );
