import { describe, expect, it } from 'vitest';
import { groupFaults, type Fault } from './faults.js';
import { forNextFile, noRepairs, withAnswers, withRepairs, type FileTable } from './mend.js';

const table: FileTable = {
  header: ['tag', 'sire', 'dam', 'sex', 'length'],
  rows: [
    { line: 2, cells: ['A', 'X', 'Y', 'boy', '40 mm'] },
    { line: 3, cells: ['B', 'X', '', 'boy', '41'] },
    { line: 5, cells: ['C', 'A', 'Z'] },
  ],
};

const fault = (
  line: number,
  column: string | null,
  code: string,
  value: string | null,
  offers: string[] = [],
): Fault => ({
  ...{ line, column, code, value, offers, message: `${value} is wrong`, remedy: 'Mend it.' },
});

const columns = { tag: 0, sex: 3, sire: 'sire', dam: 'dam' };

describe('repairs', () => {
  it('mend a value wherever it stands, a cell in its place, and leave rows out', () => {
    const mended = withRepairs(table, {
      ...noRepairs,
      values: [
        { column: 'sex', from: 'boy', to: 'male' },
        { column: 'no such', from: 'a', to: 'b' },
      ],
      cells: [
        { line: 3, column: 'sex', to: 'female' },
        { line: 5, column: 'length', to: '39' },
      ],
      leftOut: [9],
    });
    expect(mended.rows.map((row) => row.cells)).toEqual([
      ['A', 'X', 'Y', 'male', '40 mm'],
      ['B', 'X', '', 'female', '41'],
      ['C', 'A', 'Z', '', '39'],
    ]);
    expect(withRepairs(table, { ...noRepairs, leftOut: [3] }).rows.map(({ line }) => line)).toEqual(
      [2, 5],
    );
    expect(withRepairs(table, noRepairs)).toBe(table);
  });

  it('of one file leave to the next what names none of its lines', () => {
    const repairs = {
      ...noRepairs,
      dayOrder: 'day-first' as const,
      leftOut: [3],
      fish: [4],
      cells: [{ line: 3, column: 'sex', to: 'female' }],
    };
    expect(forNextFile(repairs)).toEqual({ ...noRepairs, dayOrder: 'day-first' });
  });
});

describe('one answer for a whole cause', () => {
  const faults = [
    fault(2, 'length', 'NUMBER', '40 mm'),
    fault(2, 'sire', 'PARENT', 'X', ['X1']),
    fault(3, 'sire', 'PARENT', 'X', ['X1']),
    fault(2, 'dam', 'PARENT', 'Y', []),
    fault(5, 'dam', 'PARENT', 'Z', ['Z1', 'Z2']),
    fault(5, null, 'SHORT', null),
    fault(3, 'tag', 'TWICE', 'B'),
  ];

  it('empties cells, takes what is offered once, leaves rows out and fills short ones', () => {
    const { table: mended, done } = withAnswers(
      table,
      faults,
      [
        { code: 'NUMBER', column: 'length', answer: 'empty' },
        { code: 'PARENT', column: 'sire', answer: 'offer' },
        { code: 'PARENT', column: 'dam', answer: 'offer' },
        { code: 'SHORT', column: null, answer: 'empty' },
        { code: 'TWICE', column: 'tag', answer: 'leave-out' },
        { code: 'GONE', column: 'tag', answer: 'leave-out' },
      ],
      columns,
    );
    expect(mended.rows).toEqual([
      { line: 2, cells: ['A', 'X1', 'Y', 'boy', ''] },
      { line: 5, cells: ['C', 'A', 'Z', '', ''] },
    ]);
    expect(done.map(({ code, column, count }) => [code, column, count])).toEqual([
      ['NUMBER', 'length', 1],
      ['PARENT', 'sire', 2],
      ['SHORT', null, 1],
      ['TWICE', 'tag', 1],
    ]);
  });

  it('adds a row for each parent that has none, with the sex it is named as', () => {
    const all = [...faults, fault(5, 'sire', 'PARENT', 'Y')];
    const { table: mended } = withAnswers(
      table,
      all,
      [
        { code: 'PARENT', column: 'sire', answer: 'add' },
        { code: 'PARENT', column: 'dam', answer: 'add' },
      ],
      columns,
    );
    expect(mended.rows.slice(3).map(({ cells }) => cells.join())).toEqual([
      'X,,,male,',
      'Y,,,,',
      'Z,,,female,',
    ]);
  });

  it('takes of several answers to a cause the first that fits', () => {
    const { table: mended } = withAnswers(
      table,
      [fault(2, 'sire', 'PARENT', 'X', ['C']), fault(2, 'sire', 'PARENT', 'W')],
      [
        { code: 'PARENT', column: 'sire', answer: 'offer' },
        { code: 'PARENT', column: 'sire', answer: 'add' },
      ],
      columns,
    );
    expect(mended.rows[0]?.cells[1]).toBe('C');
    expect(mended.rows.slice(3).map(({ cells }) => cells[0])).toEqual(['W']);
  });

  it('changes nothing where nothing was answered', () => {
    expect(withAnswers(table, faults, [], columns)).toEqual({ table, done: [] });
  });
});

describe('causes', () => {
  it('group faults by code and column, and in them by value, most first', () => {
    const faults = [
      fault(2, 'hatched', 'DATE', '5/3/2024'),
      fault(9, 'tag', 'TWICE', 'B'),
      fault(10, 'tag', 'TWICE', 'B'),
      ...Array.from({ length: 20 }, (_, k) => fault(20 + k, 'hatched', 'DATE', '6/3/2024', ['x'])),
    ];
    const [dates, twice] = groupFaults(faults, new Set(['TWICE']));
    expect([dates?.code, dates?.count, dates?.valueCount, dates?.offered]).toEqual([
      'DATE',
      21,
      2,
      1,
    ]);
    expect(dates?.values[0]).toMatchObject({ value: '6/3/2024', count: 20, offers: ['x'] });
    expect(dates?.values[0]?.lines).toHaveLength(12);
    expect(twice?.values.map(({ lines }) => lines)).toEqual([[9], [10]]);
  });
});
