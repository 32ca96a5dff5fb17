import { describe, expect, it } from 'vitest';
import { differsEnough, disclosureOf, rounded } from './disclosure.js';

const keeperOf = new Map([
  ['a1', 'Ada'],
  ['a2', 'Ada'],
  ['b1', 'Bo'],
  ['c1', 'Cy'],
  ['d1', 'Di'],
]);
const of = (rows: Record<string, number>) =>
  disclosureOf(
    Object.entries(rows).map(([lineId, count]) => ({ lineId, rows: count })),
    keeperOf,
  );

describe('a pooled figure', () => {
  it('is told from three keepers, none of whom has most of it', () => {
    expect(of({ a1: 4, b1: 4, c1: 4 })).toEqual({
      lineIds: ['a1', 'b1', 'c1'],
      keepers: 3,
      rows: 12,
      whyNot: null,
    });
  });

  it('is not told from two, however many lines and rows they have', () => {
    expect(of({ a1: 90, a2: 90, b1: 90 }).whyNot).toMatch(/fewer than 3 keepers/);
  });

  it('leaves lines out that have too few, and counts their keepers no more', () => {
    expect(of({ a1: 9, b1: 9, c1: 2 })).toMatchObject({
      lineIds: ['a1', 'b1'],
      whyNot: expect.stringMatching(/3 keepers/) as string,
    });
  });

  it('is not told from few rows, nor where one keeper has more than six in ten', () => {
    expect(of({ a1: 3, b1: 3, c1: 3 }).whyNot).toMatch(/fewer than 12/);
    expect(of({ a1: 9, a2: 4, b1: 4, c1: 4 }).whyNot).toMatch(/one keeper/);
    expect(of({ a1: 12, b1: 4, c1: 4 }).whyNot).toBe(null);
  });
});

describe('a figure of other lines than last time', () => {
  const differs = (before: string[], now: string[]) =>
    differsEnough(before, now, (id) => keeperOf.get(id));

  it('is told where nothing changed, and where two keepers did', () => {
    expect(differs([], ['a1', 'b1', 'c1'])).toBe(true);
    expect(differs(['a1', 'b1', 'c1'], ['c1', 'b1', 'a1'])).toBe(true);
    expect(differs(['a1', 'b1', 'c1'], ['b1', 'c1', 'd1'])).toBe(true);
  });

  it('is not told where one keeper alone came, went or changed lines', () => {
    expect(differs(['a1', 'b1', 'c1'], ['a1', 'b1', 'c1', 'd1'])).toBe(false);
    expect(differs(['a1', 'b1', 'c1', 'd1'], ['a1', 'b1', 'c1'])).toBe(false);
    expect(differs(['a1', 'b1', 'c1'], ['a2', 'b1', 'c1'])).toBe(false);
  });
});

describe('rounded', () => {
  it('keeps two digits', () => {
    expect([0.23456, 12.6, -0.00123].map(rounded)).toEqual([0.23, 13, -0.0012]);
  });
});
