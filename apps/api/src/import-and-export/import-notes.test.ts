import { describe, expect, it } from 'vitest';
import { readTable } from './csv-table.js';
import { planImport, type ImportPlan } from './plan-import.js';
import type { RecordedFish, RecordedStock } from './recorded-stock.js';
import { namesSummary } from './summary-row.js';

const fish = (tag: string, more: Partial<RecordedFish> = {}): [string, RecordedFish] => [
  tag,
  {
    id: `id-${tag}`,
    tag,
    sex: 'unsexed',
    hatchDate: null,
    lineCode: null,
    sireTag: null,
    damTag: null,
    spawn: null,
    declaredUnrelated: false,
    isSire: false,
    isDam: false,
    withdrawn: false,
    ...more,
  },
];

const stock = (recorded: [string, RecordedFish][] = [], lines: string[] = []): RecordedStock => ({
  fish: new Map(recorded),
  lines: new Map(lines.map((code) => [code, `id-${code}`])),
  traits: [],
  spawns: new Map(),
  spawnsByTag: new Map(),
  people: new Map(),
  vessels: new Map(),
  personId: 'me',
  standing: new Map(),
});

const plan = (text: string, against = stock()): ImportPlan => {
  let next = 0;
  return planImport(readTable(text), [], against, {
    newId: () => `new-${++next}`,
    latestDay: '2026-11-25',
  });
};

const codes = ({ notes }: ImportPlan) => notes.map(({ line, code }) => [line, code]);

describe('sums under a table', () => {
  it.each([
    'Total',
    'TOTAL:',
    'Sum (24)',
    'Total 24 fish',
    'Mittelwert',
    '合計',
    'grand total = 3',
  ])('"%s" becomes no fish, and it is said', (tag) => {
    const planned = plan(`tag,sex,hatch_date,length\nA,m,2025-01-01,40\n${tag},,,40\n`);
    expect(planned.problems).toEqual([]);
    expect(planned.fish.map((one) => one.tag)).toEqual(['A']);
    expect([planned.rowCount, planned.skippedRows]).toEqual([2, 1]);
    expect(codes(planned)).toEqual([[3, 'IMPORT_SUMMARY_ROW']]);
    expect(planned.notes[0]?.message).toContain(`"${tag}" looks like a sum`);
  });

  it('hold figures where a fish holds a sex, a day or a parent, and are no problem for it', () => {
    const planned = plan('tag,sire,dam,sex,hatch_date\nA,,,m,\nTotal,1,1,1 male,2 days\n');
    expect([planned.problems, planned.fish.length]).toEqual([[], 1]);
  });

  it.each([
    ['has a sex', 'tag,sex,sire\nTotal,m,\n'],
    ['has a hatch date', 'tag,hatch_date\nTotal,2025-01-01\n'],
    ['has a parent', 'tag,sire\nA,\nTotal,A\n'],
    ['is a parent', 'tag,sire,sex\nTotal,,\nA,Total,f\n'],
  ])('are fish where the row %s', (_, text) => {
    expect(plan(text).fish.map((one) => one.tag)).toContain('Total');
    expect(plan(text).skippedRows).toBe(0);
  });

  it('is not what a tag of a line is, and a recorded fish stays one', () => {
    expect(['SUM-01', 'Total-12', 'Mean Girl', 'R-01', '24'].filter(namesSummary)).toEqual([]);
    expect(plan('tag,sex\nTotal,\n', stock([fish('Total')])).knownFish).toBe(1);
  });
});

describe('tags and codes that differ only in capitals or blanks', () => {
  it('make no second line, of the file or recorded', () => {
    const planned = plan('tag,line\nA,red\nB,RED\nC,Red\nD,new\nE,New\n', stock([], ['RED']));
    expect(planned.lines.map(({ code }) => code)).toEqual(['new']);
    expect(planned.fish.map(({ lineId }) => lineId)).toEqual([
      'id-RED',
      'id-RED',
      'id-RED',
      planned.lines[0]?.id,
      planned.lines[0]?.id,
    ]);
    expect(planned.notes.map(({ message }) => message)).toEqual([
      'The line "red" is read as "RED": they differ only in capitals or blanks.',
      'The line "Red" is read as "RED": they differ only in capitals or blanks.',
      'The line "New" is read as "new": they differ only in capitals or blanks.',
    ]);
  });

  it('make no second fish, as a row and as a parent', () => {
    const planned = plan(
      'tag,sire,dam\nr-01,,\nB,R - 01,c\nC,,\nD,r-01,C\n',
      stock([fish('R-01')]),
    );
    expect(planned.problems).toEqual([]);
    expect(planned.fish.map(({ tag }) => tag)).toEqual(['B', 'C', 'D']);
    expect([planned.knownFish, planned.spawns.length]).toEqual([1, 1]);
    expect(planned.notes.map(({ line, message }) => [line, message.split(':')[0]])).toEqual([
      [2, 'The tag "r-01" is read as "R-01" (2 times)'],
      [3, 'The tag "R - 01" is read as "R-01"'],
      [3, 'The tag "c" is read as "C"'],
    ]);
  });

  it('on two rows of one file have to be told apart', () => {
    const [problem] = plan('tag,sex\nA1,m\na1,f\n').problems;
    expect([problem?.line, problem?.code]).toEqual([3, 'IMPORT_DUPLICATE_TAG']);
    expect(problem?.message).toBe('"a1" and "A1" on line 2 differ only in capitals or blanks.');
  });

  it('stay two fish where both are recorded', () => {
    const planned = plan('tag,sex\nA1,\na1,\n', stock([fish('A1'), fish('a1')]));
    expect([planned.knownFish, planned.problems, planned.notes]).toEqual([2, [], []]);
  });
});

describe('what is said of a file', () => {
  it('names rows with nothing but a tag, for they may be remarks', () => {
    const planned = plan('tag,sex\nA,m\nPrinted on Monday,\nB,f\n');
    expect(codes(planned)).toEqual([[3, 'IMPORT_ONLY_TAG']]);
    expect(planned.notes[0]?.message).toContain('"Printed on Monday"');
  });

  it('refuses letters that were lost before', () => {
    expect(
      plan('tag,sex\nM\uFFFDller,m\nB\u0081,f\n').problems.map(({ line, code }) => [line, code]),
    ).toEqual([
      [2, 'IMPORT_BROKEN_LETTERS'],
      [3, 'IMPORT_BROKEN_LETTERS'],
    ]);
  });

  it('counts the lines of cells with line ends of any kind, which stay as they are', () => {
    const table = readTable('tag,note\r\nA,"x\r\ny\rz"\r\n\r\nB,x\r\n"",""\r\nC,x');
    expect(table.rows.map(({ line, cells }) => [line, cells[1]])).toEqual([
      [2, 'x\r\ny\rz'],
      [6, 'x'],
      [8, 'x'],
    ]);
  });
});
