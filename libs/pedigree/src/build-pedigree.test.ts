import { describe, expect, it } from 'vitest';
import {
  buildPedigree,
  findProblems,
  pedigreeFromArrays,
  pedigreeFromColumns,
  pedigreeFromRows,
} from './build-pedigree.js';
import { PedigreeError } from './pedigree-error.js';
import type { ParentageRecord } from './pedigree.js';

const codes = (records: ParentageRecord[], options = {}) =>
  findProblems(records, options).map(({ code, id }) => `${code} ${id}`);

describe('buildPedigree', () => {
  it('puts parents before young and finds ids again', () => {
    const pedigree = buildPedigree([
      { id: 'fry', sire: 'red', dam: 'blue' },
      { id: 'red', dam: 'gran' },
      { id: 'blue', dam: 'gran' },
      { id: 'gran' },
    ]);
    expect(pedigree.ids).toEqual(['gran', 'red', 'blue', 'fry']);
    pedigree.ids.forEach((id, index) => expect(pedigree.indexOf(id)).toBe(index));
    expect([...pedigree.sire]).toEqual([-1, -1, -1, 1]);
    expect([...pedigree.dam]).toEqual([-1, 0, 0, 2]);
    expect(pedigree.has('green')).toBe(false);
    expect(() => pedigree.indexOf('green')).toThrow(
      expect.objectContaining({ code: 'PEDIGREE_UNKNOWN_ID' }),
    );
  });

  it('keeps the order of records that have parents first', () => {
    const ids = ['b', 'a', 'd', 'c'];
    const records = ids.map((id, i) => ({ id, sire: i === 3 ? 'b' : null }));
    expect(buildPedigree(records).ids).toEqual(ids);
  });

  it('adds unlisted parents as founders when asked', () => {
    const records = [{ id: 'fry', sire: 'red', dam: 'blue' }];
    const pedigree = buildPedigree(records, { unlistedParents: 'add' });
    expect(pedigree.ids).toEqual(['red', 'blue', 'fry']);
    expect(() => buildPedigree(records)).toThrow(PedigreeError);
  });

  it('takes an empty pedigree', () => {
    expect(buildPedigree([]).size).toBe(0);
  });

  it('throws with every problem at once', () => {
    try {
      buildPedigree([
        { id: 'a', sire: 'x' },
        { id: 'b', dam: 'y' },
      ]);
      expect.unreachable();
    } catch (error) {
      expect(error).toMatchObject({ code: 'PEDIGREE_INVALID' });
      expect((error as PedigreeError).problems.map((problem) => problem.others)).toEqual([
        ['x'],
        ['y'],
      ]);
    }
  });
});

describe('findProblems', () => {
  it('spells a cycle out', () => {
    const [problem, ...others] = findProblems([
      { id: 'a', sire: 'b', row: 2 },
      { id: 'b', sire: 'c', row: 3 },
      { id: 'c', sire: 'a', row: 4 },
      { id: 'd', sire: 'a', row: 5 },
    ]);
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ code: 'PEDIGREE_CYCLE', row: 2, others: ['a', 'b', 'c'] });
    expect(problem!.message).toContain('"a" is a young of "b" is a young of "c" is a young of "a"');
  });

  it('finds separate cycles and a fish that is its own sire', () => {
    expect(
      codes([
        { id: 'a', sire: 'b' },
        { id: 'b', sire: 'a' },
        { id: 'c', sire: 'c' },
        { id: 'd', sire: 'b', dam: 'e' },
        { id: 'e', sire: 'f' },
        { id: 'f', dam: 'd' },
      ]).filter((text) => text.startsWith('PEDIGREE_CYCLE')),
    ).toEqual(['PEDIGREE_CYCLE a', 'PEDIGREE_CYCLE c', 'PEDIGREE_CYCLE d']);
  });

  it('reports both parents the same fish, unless selfing is allowed', () => {
    const records = [{ id: 'a' }, { id: 'b', sire: 'a', dam: 'a' }];
    expect(codes(records)).toEqual(['PEDIGREE_SAME_PARENTS b']);
    expect(codes(records, { allowSelfing: true })).toEqual([]);
  });

  it('reports sex contradictions, once a parent', () => {
    expect(
      codes([
        { id: 'male', sex: 'male' },
        { id: 'female', sex: 'female' },
        { id: 'unsexed', sex: 'unknown' },
        { id: 'a', sire: 'female', dam: 'male' },
        { id: 'b', sire: 'female', dam: 'male' },
        { id: 'c', sire: 'unsexed' },
        { id: 'd', dam: 'unsexed' },
      ]),
    ).toEqual([
      'PEDIGREE_SEX_CONFLICT male',
      'PEDIGREE_SEX_CONFLICT female',
      'PEDIGREE_SEX_CONFLICT unsexed',
    ]);
  });

  it('reports dates that are none and parents not older than their young', () => {
    const records: ParentageRecord[] = [
      { id: 'sire', bornOn: '2026-03-14' },
      { id: 'dam', bornOn: '2025-02-29' },
      { id: 'same day', sire: 'sire', bornOn: '2026-03-14' },
      { id: 'younger', sire: 'sire', dam: 'dam', bornOn: '2024-02-29' },
      { id: 'later', sire: 'sire', dam: 'dam', bornOn: '2026-08-01' },
      { id: 'month', bornOn: '2026-13-01' },
    ];
    expect(codes(records)).toEqual([
      'PEDIGREE_BAD_DATE dam',
      'PEDIGREE_PARENT_YOUNGER same day',
      'PEDIGREE_PARENT_YOUNGER younger',
      'PEDIGREE_BAD_DATE month',
    ]);
  });

  it('reports empty and duplicate ids; the first record stands', () => {
    const problems = findProblems([
      { id: 'a', row: 2 },
      { id: '', row: 3 },
      { id: 'a', sire: 'b', row: 4 },
      { id: 'b', row: 5 },
      { id: 'a', row: 6 },
    ]);
    expect(problems.map(({ code, row }) => [code, row])).toEqual([
      ['PEDIGREE_EMPTY_ID', 3],
      ['PEDIGREE_DUPLICATE_ID', 4],
      ['PEDIGREE_DUPLICATE_ID', 6],
    ]);
    expect(problems[1]!.message).toContain('Line 4');
    expect(problems[1]!.message).toContain('line 2');
  });

  it('takes ids that look like object keys', () => {
    const records = ['__proto__', 'constructor', 'toString'].map((id) => ({ id }));
    expect(buildPedigree([...records, { id: 'x', sire: '__proto__' }]).size).toBe(4);
  });
});

describe('large and lopsided pedigrees', () => {
  it('takes 200,000 generations, rows upside down, without recursion', () => {
    const generations = 200_000;
    const records: ParentageRecord[] = [];
    for (let t = generations; t > 0; t--) records.push({ id: `g${t}`, sire: `g${t - 1}` });
    records.push({ id: 'g0' });
    const pedigree = buildPedigree(records);
    expect(pedigree.ids[0]).toBe('g0');
    expect(pedigree.indexOf(`g${generations}`)).toBe(generations);
  });

  it('spells a cycle of 200,000 fish briefly', () => {
    const size = 200_000;
    const records = Array.from({ length: size }, (_, t) => ({
      id: `g${t}`,
      sire: `g${(t + 1) % size}`,
    }));
    const [problem] = findProblems(records);
    expect(problem!.others).toHaveLength(size);
    expect(problem!.message.length).toBeLessThan(1000);
  });

  it('takes columns', () => {
    const pedigree = pedigreeFromColumns({
      ids: ['y', 'x'],
      sire: ['x', ''],
      dam: [null, undefined],
    });
    expect(pedigree.ids).toEqual(['x', 'y']);
    expect(() => pedigreeFromColumns({ ids: ['y'], sire: [], dam: [null] })).toThrow(
      expect.objectContaining({ code: 'PEDIGREE_LENGTH_MISMATCH' }),
    );
  });
});

describe('pedigreeFromRows', () => {
  it('asks for the ids once, however many problems there are', () => {
    // Every fish between the ends is a sire and a dam.
    const size = 1000;
    let asked = 0;
    const rows = {
      sire: Int32Array.from({ length: size }, (_, i) => (i < 2 ? -1 : i - 1)),
      dam: Int32Array.from({ length: size }, (_, i) => (i < 2 ? -1 : i - 2)),
      ids: () => {
        asked++;
        return Array.from({ length: size }, (_, i) => String(i));
      },
    };
    let problems = 0;
    try {
      pedigreeFromRows(rows);
    } catch (error) {
      if (error instanceof PedigreeError) problems = error.problems.length;
    }
    expect(problems).toBe(size - 3);
    expect(asked).toBe(1);
  });
});

describe('pedigreeFromArrays', () => {
  it('refuses parents that do not come first', () => {
    expect(() => pedigreeFromArrays(Int32Array.of(1, -1), Int32Array.of(-1, -1))).toThrow(
      expect.objectContaining({ code: 'PEDIGREE_NOT_TOPOLOGICAL' }),
    );
    expect(() => pedigreeFromArrays(Int32Array.of(-2), Int32Array.of(-1))).toThrow(PedigreeError);
  });

  it('names individuals by index unless ids are given', () => {
    expect(pedigreeFromArrays(Int32Array.of(-1, 0), Int32Array.of(-1, -1)).indexOf('1')).toBe(1);
  });
});
