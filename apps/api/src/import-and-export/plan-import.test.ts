import { describe, expect, it } from 'vitest';
import { readTable } from './csv-table.js';
import type { ExportFish } from '../stock/import-and-export-rows.js';
import { pedigreeCsv } from './export-pedigree.js';
import type { ColumnChoice } from '../stock/rows/import-column-choice.js';
import { planImport, type ImportPlan } from './plan-import.js';
import type { RecordedFish, RecordedSpawn, RecordedStock } from './recorded-stock.js';

const nothing: RecordedStock = {
  fish: new Map(),
  lines: new Map(),
  traits: [],
  spawns: new Map(),
  spawnsByTag: new Map(),
  people: new Map(),
  vessels: new Map(),
  personId: 'me',
  standing: new Map(),
};

const LATEST = '2026-11-25';

const recorded = (fish: Partial<RecordedFish> & { tag: string }): RecordedFish => ({
  id: `id-${fish.tag}`,
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
  ...fish,
});

const recordedSpawn = (spawn: Partial<RecordedSpawn> = {}): RecordedSpawn => ({
  id: 'id-spawn',
  sireTag: null,
  damTag: null,
  withdrawn: false,
  ...spawn,
});

const stockOf = (...fish: RecordedFish[]): RecordedStock => ({
  ...nothing,
  fish: new Map(fish.map((f) => [f.tag, f])),
});

const plan = (text: string, stock = nothing, choices: ColumnChoice[] = []): ImportPlan => {
  let next = 0;
  return planImport(readTable(text), choices, stock, {
    newId: () => `new-${++next}`,
    latestDay: LATEST,
  });
};

const found = (text: string, stock = nothing) =>
  plan(text, stock).problems.map(({ line, column, code, value }) => [line, column, code, value]);

describe('reading a table', () => {
  it('keeps line numbers over blank lines and quoted line ends', () => {
    const table = readTable('tag,note\r\nA,"two\r\nlines"\r\n\r\nB,x\r\n');
    expect(table.rows.map((row) => [row.line, row.cells[0]])).toEqual([
      [2, 'A'],
      [5, 'B'],
    ]);
  });

  it.each([
    ['comma', ','],
    ['semicolon', ';'],
    ['tab', '\t'],
  ])('reads columns separated by a %s, with or without a byte order mark', (_, d) => {
    for (const mark of ['', '\uFEFF']) {
      const table = readTable(`${mark}tag${d}"sire"${d}dam\nA${d}"x""y"${d}\n`);
      expect(table.header).toEqual(['tag', 'sire', 'dam']);
      expect(table.rows[0]?.cells).toEqual(['A', 'x"y', '']);
    }
  });

  it('tells where a quotation mark is left open', () => {
    const { problems } = readTable('tag,sire\nA,"open\nB,\n');
    expect(problems.map((p) => p.code)).toEqual(['IMPORT_UNREADABLE']);
  });

  it('lists rows that are too short or too long, and empty files', () => {
    expect(found('tag,sire,dam\nA,,\nB\nC,,,,x\n')).toEqual([
      [3, null, 'IMPORT_ROW_LENGTH', null],
      [4, null, 'IMPORT_ROW_LENGTH', null],
    ]);
    expect(found('')).toEqual([[1, null, 'IMPORT_EMPTY', null]]);
    expect(found('tag,sire\n')).toEqual([[1, null, 'IMPORT_EMPTY', null]]);
  });
});

describe('matching columns', () => {
  it('knows the plain words of the trade', () => {
    const { columns } = plan(
      'Fish ID;Father;Mother;SEX;Date of birth;Strain;Length mm;Remark\nA;;;m;;;41,5;nice\n',
    );
    expect(columns.map((c) => c.role)).toEqual([
      'tag',
      'sire',
      'dam',
      'sex',
      'hatch_date',
      'line',
      'trait',
      'note',
    ]);
  });

  it('asks for a tag column and refuses a role given twice', () => {
    expect(found('name,sire\nA,\n')).toEqual([[1, null, 'IMPORT_NO_TAG_COLUMN', 'name, sire']]);
    const twice = plan('tag,a,b\nA,,\n', nothing, [
      { header: 'a', role: 'sire' },
      { header: 'b', role: 'sire' },
      { header: 'gone', role: 'dam' },
    ]);
    expect(twice.problems.map((p) => p.code)).toEqual([
      'IMPORT_COLUMN_MISSING',
      'IMPORT_COLUMN_TWICE',
    ]);
  });
});

describe('checking rows', () => {
  it('lists every bad row with its line', () => {
    const text = [
      'tag,sire,dam,sex,hatch_date,length',
      'S,,,male,2025-01-01,40',
      'D,,,female,2025-01-01,38',
      'A,S,D,,2025-06-01,x12',
      'B,D,S,,2025-06-01,12',
      'C,S,nobody,,2025-06-01,12',
      'E,S,D,,2024-06-01,12',
      'A,S,D,,2025-06-01,12',
      ',S,D,,2025-06-01,12',
      'G,S,D,boy,2025-02-30,12',
      'H,S,S,,,12',
    ].join('\n');
    expect(found(text)).toEqual([
      [4, 'length', 'IMPORT_BAD_NUMBER', 'x12'],
      [5, 'sire', 'IMPORT_FEMALE_AS_SIRE', 'D'],
      [5, 'dam', 'IMPORT_MALE_AS_DAM', 'S'],
      [6, 'dam', 'IMPORT_UNKNOWN_PARENT', 'nobody'],
      [7, 'sire', 'IMPORT_PARENT_YOUNGER', 'S'],
      [7, 'dam', 'IMPORT_PARENT_YOUNGER', 'D'],
      [8, 'tag', 'IMPORT_DUPLICATE_TAG', 'A'],
      [9, 'tag', 'IMPORT_TAG_MISSING', null],
      [10, 'sex', 'IMPORT_BAD_SEX', 'boy'],
      [10, 'hatch_date', 'IMPORT_BAD_DATE', '2025-02-30'],
      [11, 'dam', 'IMPORT_SAME_PARENTS', 'S'],
      [11, 'dam', 'IMPORT_MALE_AS_DAM', 'S'],
    ]);
  });

  it.each([
    ['2026-11-25', []],
    ['2026-11-26', [[2, 'hatch_date', 'IMPORT_BAD_DATE', '2026-11-26']]],
    ['0026-03-14', [[2, 'hatch_date', 'IMPORT_BAD_DATE', '0026-03-14']]],
  ])('takes a day that has come and has its whole year: %s', (day, problems) => {
    expect(found(`tag,hatch_date\nA,${day}\n`)).toEqual(problems);
  });

  it('spells out a circle of ancestors', () => {
    const { problems } = plan('tag,sire,dam\nA,C,\nB,A,\nC,B,\n');
    expect(problems.map((p) => p.code)).toEqual(['IMPORT_OWN_ANCESTOR']);
    expect(problems[0]?.message).toMatch(
      /"([ABC])" is its own ancestor: "\1" is a young of .* "\1"\./,
    );
  });

  it('names a fish used as sire and as dam, in the file or against the records', () => {
    expect(found('tag,sire,dam\nX,,\nA,X,\nB,,X\n')).toEqual([
      [4, 'dam', 'IMPORT_BOTH_ROLES', 'X'],
    ]);
    const stock = stockOf(recorded({ tag: 'X', isSire: true }));
    expect(found('tag,sire,dam\nB,,X\n', stock)).toEqual([[2, 'dam', 'IMPORT_BOTH_ROLES', 'X']]);
  });

  it('checks parents that are recorded already', () => {
    const stock = stockOf(
      recorded({ tag: 'M', sex: 'male', hatchDate: '2025-05-01' }),
      recorded({ tag: 'W', withdrawn: true }),
    );
    expect(found('tag,sire,dam,hatched\nA,M,,2025-09-01\n', stock)).toEqual([]);
    expect(found('tag,sire,dam,hatched\nA,M,,2025-04-01\nB,,M,\nC,W,,\n', stock)).toEqual([
      [2, 'sire', 'IMPORT_PARENT_YOUNGER', 'M'],
      [3, 'dam', 'IMPORT_MALE_AS_DAM', 'M'],
      [4, 'sire', 'IMPORT_PARENT_WITHDRAWN', 'W'],
    ]);
  });

  it('takes a recorded fish as known when it agrees, and refuses a tag used again', () => {
    const stock = stockOf(
      recorded({ tag: 'S' }),
      recorded({ tag: 'A', sireTag: 'S', sex: 'male', hatchDate: '2025-05-01' }),
    );
    const same = plan('tag,sire,dam,sex,hatch_date\nA,S,,,2025-05-01\n', stock);
    expect([same.problems, same.knownFish, same.fish.length]).toEqual([[], 1, 0]);
    const other = plan('tag,sire,dam,sex\nA,,,female\n', stock);
    expect(other.problems.map((p) => [p.column, p.code])).toEqual([
      ['sire', 'IMPORT_TAG_TAKEN'],
      ['sex', 'IMPORT_TAG_TAKEN'],
    ]);
    expect(other.problems[0]?.message).toContain('sire S; the file says unknown');
  });

  it('reads 0, NA and ? as unknown parents unless a fish bears that tag', () => {
    expect(plan('tag,sire,dam\nA,0,NA\n').spawns).toEqual([]);
    expect(plan('tag,sire,dam\n0,,\nA,0,?\n').spawns).toHaveLength(1);
  });
});

describe('planning', () => {
  it('makes one spawn a brood and none for founders', () => {
    const text =
      'tag,sire,dam,hatch_date,line\nS,,,,R\nD,,,,R\nA,S,D,2025-06-01,R\nB,S,D,2025-06-01,R\nC,S,D,2025-09-01,R\nE,S,,,\n';
    const { spawns, fish, lines } = plan(text, {
      ...nothing,
      spawnsByTag: new Map([['R-S0001', recordedSpawn()]]),
    });
    expect(spawns.map((s) => s.tag)).toEqual(['R-S0002', 'R-S0003', 'SPAWN-S0001']);
    expect(spawns[2]?.damId).toBeNull();
    expect(fish.map((f) => f.spawnId === null)).toEqual([true, true, false, false, false, false]);
    expect(fish[2]?.spawnId).toBe(fish[3]?.spawnId);
    expect(lines.map((l) => l.code)).toEqual(['R']);
  });

  it('makes a yes-or-no trait only of noughts and ones, and passes over values that stand already', () => {
    const first = plan('tag,marble,length\nA,1,40.5\nB,0,1\n');
    expect(first.traits.map((t) => [t.key, t.kind])).toEqual([
      ['marble', 'yes_no'],
      ['length', 'measured'],
    ]);
    const stock: RecordedStock = {
      ...stockOf(recorded({ tag: 'A' })),
      traits: [
        {
          id: 't',
          key: 'length',
          name: 'Length',
          kind: 'measured',
          minimum: 0,
          maximum: 90,
          version: 3,
        },
      ],
      standing: new Map([['id-A t', 40.5]]),
    };
    expect(plan('tag,length\nA,40.5\n', stock).scores).toEqual([]);
    expect(plan('tag,length\nA,41\n', stock).scores).toMatchObject([
      { fishId: 'id-A', traitId: 't', traitVersion: 3, value: 41 },
    ]);
    expect(found('tag,length\nA,91\n', stock)).toEqual([
      [2, 'length', 'IMPORT_OUT_OF_RANGE', '91'],
    ]);
  });

  it.each([
    ['ordinal', '7.5', [[2, 'form', 'IMPORT_OUT_OF_RANGE', '7.5']]],
    ['ordinal', '7', []],
    ['count', '7.5', [[2, 'form', 'IMPORT_OUT_OF_RANGE', '7.5']]],
    ['measured', '7.5', []],
  ] as const)(
    'takes of a trait that is %s the value %s as a form does',
    (kind, value, problems) => {
      const stock: RecordedStock = {
        ...stockOf(recorded({ tag: 'A' })),
        traits: [{ id: 't', key: 'form', name: 'Form', kind, minimum: 1, maximum: 10, version: 1 }],
      };
      expect(found(`tag,form\nA,${value}\n`, stock)).toEqual(problems);
    },
  );
});

describe('sibs whose parents nobody knows', () => {
  it('join the spawn that their rows name, and no other row does', () => {
    const text = 'tag,hatch_date,spawn\nA,2025-02-01,BAG-1\nB,,BAG-1\nC,,BAG-2\nD,,\nE,,?\n';
    const { fish, spawns, problems } = plan(text);
    expect(problems).toEqual([]);
    expect(
      spawns.map(({ tag, sireId, damId, hatchDate }) => [tag, sireId, damId, hatchDate]),
    ).toEqual([
      ['BAG-1', null, null, '2025-02-01'],
      ['BAG-2', null, null, null],
    ]);
    const [one, other] = spawns.map(({ id }) => id);
    expect(fish.map(({ spawnId }) => spawnId)).toEqual([one, one, other, null, null]);
  });

  it('join a recorded spawn of that tag and have its parents', () => {
    const stock = {
      ...stockOf(recorded({ tag: 'S' }), recorded({ tag: 'K', sireTag: 'S', spawn: 'BAG-1' })),
      spawnsByTag: new Map([['BAG-1', recordedSpawn({ sireTag: 'S' })]]),
    };
    const { fish, spawns, problems, knownFish } = plan(
      'tag,sire,sibs\nA,,bag-1\nK,,BAG-1\n',
      stock,
    );
    expect([problems, spawns, knownFish]).toEqual([[], [], 1]);
    expect(fish.map(({ spawnId }) => spawnId)).toEqual(['id-spawn']);
    expect(found('tag,sire,spawn\nX,,\nA,X,BAG-1\n', stock)).toEqual([
      [3, 'sire', 'IMPORT_SPAWN_PARENTS', 'X'],
    ]);
  });

  it('share a parent that one of them names, and may not name two', () => {
    const { fish, spawns, problems } = plan('tag,sire,spawn\nS,,\nA,S,X\nB,,X\n');
    expect([problems, spawns.length]).toEqual([[], 1]);
    expect(fish[2]?.spawnId).toBe(fish[1]?.spawnId);
    expect(found('tag,sire,spawn\nS,,\nT,,\nA,S,X\nB,T,X\n')).toEqual([
      [5, 'sire', 'IMPORT_SPAWN_PARENTS', 'T'],
    ]);
  });

  it('are not made of a withdrawn spawn, nor of a fish that is recorded otherwise', () => {
    const spawnsByTag = new Map([['X', recordedSpawn({ withdrawn: true })]]);
    expect(found('tag,spawn\nA,X\n', { ...nothing, spawnsByTag })).toEqual([
      [2, 'spawn', 'IMPORT_SPAWN_PARENTS', 'X'],
    ]);
    expect(found('tag,spawn\nA,X\n', stockOf(recorded({ tag: 'A' })))).toEqual([
      [2, 'spawn', 'IMPORT_TAG_TAKEN', 'X'],
    ]);
  });

  it('are told from fish whose unknown parents are known to be unrelated', () => {
    const { fish } = plan('tag,unrelated\nA,yes\nB,no\nC,\n');
    expect(fish.map(({ declaredUnrelated }) => declaredUnrelated)).toEqual([true, false, null]);
    expect(found('tag,unrelated\nA,perhaps\n')).toEqual([
      [2, 'unrelated', 'IMPORT_BAD_YES_NO', 'perhaps'],
    ]);
    expect(found('tag,unrelated\nA,yes\n', stockOf(recorded({ tag: 'A' })))).toEqual([
      [2, 'unrelated', 'IMPORT_TAG_TAKEN', 'unrelated'],
    ]);
  });
});

describe('writing a pedigree', () => {
  const fish = (tag: string, more: Partial<ExportFish> = {}): ExportFish => ({
    id: `id-${tag}`,
    tag,
    sex: 'unsexed',
    hatchDate: null,
    lineCode: null,
    sireId: null,
    damId: null,
    spawn: null,
    declaredUnrelated: false,
    personName: 'Us',
    own: true,
    ...more,
  });

  it('puts parents first, quotes where needed, and tells a partner’s fish from ours', () => {
    const text = [
      ...pedigreeCsv(
        [
          fish('a,b', { sireId: 'id-z', damId: 'p', hatchDate: '2025-01-01', sex: 'male' }),
          fish('z', { sex: 'male' }),
          fish('z', { id: 'p', own: false, personName: 'Them', sex: 'female' }),
        ],
        [{ id: 't', name: 'line' }],
        [{ fishId: 'p', traitId: 't', value: 0.1 }],
      ),
    ].join('');
    expect(text).toBe(
      'tag,sire,dam,sex,hatch_date,line,spawn,unrelated,line (score)\nz,,,male,,,,,\nz (Them),,,female,,,,,0.1\n"a,b",z,z (Them),male,2025-01-01,,,,\n',
    );
  });

  it('puts living fish into the vessels that they name, one however it is spelt, and says where several are', () => {
    const stock = {
      ...nothing,
      vessels: new Map([['b13', { id: 'id-b13', code: 'B 13', tags: ['OLD'] }]]),
    };
    const planned = plan(
      'tag,sex,jar,status\nA,male,b 13,keeper\nB,female,Tub 1,keeper\nC,male,TUB1,keeper\nD,male,J 4,died\nE,male,,keeper\n',
      stock,
    );
    expect(planned.vessels.map(({ code, kind }) => [code, kind])).toEqual([['Tub 1', 'tub']]);
    const tagOf = new Map(planned.fish.map(({ id, tag }) => [id, tag]));
    const made = planned.vessels[0]?.id;
    expect(planned.stays.map(({ fishId, vesselId }) => [tagOf.get(fishId), vesselId])).toEqual([
      ['A', 'id-b13'],
      ['B', made],
      ['C', made],
    ]);
    expect(
      planned.notes
        .filter(({ code }) => code === 'IMPORT_VESSEL_SHARED')
        .map(({ message }) => message.slice(0, 36)),
    ).toEqual(['2 fish would be in b 13: OLD, A. It ', '2 fish would be in Tub 1: B, C. It i']);
  });
});
