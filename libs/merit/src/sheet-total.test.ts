import { describe, expect, it } from 'vitest';
import { MeritError } from './merit-error.js';
import { type SheetLine, sheetTotal } from './sheet-total.js';

const line = (trait: string, weight: number | null, noneAt = 0, fullAt = 5): SheetLine => ({
  trait,
  weight,
  noneAt,
  fullAt,
});

describe('the total of a score sheet', () => {
  it('counts all lines alike where the person set no weight', () => {
    const { total, parts } = sheetTotal(
      [line('spread', null, 120, 180), line('balance', null)],
      new Map([
        ['spread', 165],
        ['balance', 5],
      ]),
      [],
    );
    expect(total).toBeCloseTo(87.5, 12);
    expect(parts.map((part) => part.points)).toEqual([37.5, 50]);
  });

  it("uses the person's weights, whatever they add up to", () => {
    const { total } = sheetTotal(
      [line('spread', 3, 120, 180), line('balance', 1)],
      new Map([
        ['spread', 165],
        ['balance', 5],
      ]),
      [],
    );
    expect(total).toBeCloseTo((100 * (3 * 0.75 + 1)) / 4, 12);
  });

  it('earns no more than all and no less than nothing, and may run downward', () => {
    const lines = [line('spread', null, 120, 180), line('length', null, 50, 40)];
    const of = (spread: number, length: number) =>
      sheetTotal(lines, new Map(Object.entries({ spread, length })), []).total;
    expect(of(200, 38)).toBe(100);
    expect(of(90, 60)).toBe(0);
    expect(of(90, 45)).toBe(25);
  });

  it('says which counted lines are missing and totals the rest', () => {
    const { total, missing } = sheetTotal(
      [line('spread', null), line('balance', null), { ...line('rays', null), noneAt: null }],
      new Map([['spread', 5]]),
      [],
    );
    expect(total).toBe(100);
    expect(missing).toEqual(['balance']);
  });

  it('takes off the points of faults, not below 0, and none where none are set', () => {
    const values = new Map([['spread', 1]]);
    const fault = (points: number | null, disqualifying = false) => ({
      name: 'torn fin',
      disqualifying,
      points,
    });
    const of = (...faults: ReturnType<typeof fault>[]) =>
      sheetTotal([line('spread', null)], values, faults);
    expect(of(fault(5)).total).toBe(15);
    expect(of(fault(15), fault(15)).total).toBe(0);
    expect(of(fault(null)).total).toBe(20);
    expect(of(fault(null, true))).toMatchObject({ total: 20, disqualified: true });
  });

  it('has no total when nothing that counts was scored', () => {
    expect(sheetTotal([line('spread', 0)], new Map([['spread', 3]]), []).total).toBeNull();
    expect(sheetTotal([line('spread', null)], new Map(), []).total).toBeNull();
  });

  it('refuses lines that cannot be counted', () => {
    for (const bad of [line('a', -1), line('a', null, 4, 4), line('a', NaN)])
      expect(() => sheetTotal([bad], new Map(), [])).toThrow(MeritError);
  });
});
