import { describe, expect, it } from 'vitest';
import { costCurve, sizeCurve } from './cost-curve.js';

const cost = { verdict: 'COSTS' as const, perGamete: 1.5, low: 0.5, high: 2.5, smallest: 1 };
const broods = [
  { inbreeding: 0, counted: 100 },
  { inbreeding: 0.25, counted: 100 },
];

describe('costCurve', () => {
  it('is exp(-A - B F) from no inbreeding to the most inbred brood', () => {
    const curve = costCurve(cost, 0.2, broods);
    expect(curve[0]?.value).toBeCloseTo(Math.exp(-0.2), 12);
    expect(curve.at(-1)?.inbreeding).toBe(0.25);
    expect(curve.at(-1)?.value).toBeCloseTo(Math.exp(-0.2 - 1.5 * 0.25), 12);
  });

  it('has its interval narrowest at the broods’ middle, and the fit within it', () => {
    const curve = costCurve(cost, 0.2, broods);
    const middle = curve.find(({ inbreeding }) => inbreeding === 0.125);
    expect(middle?.high).toBeCloseTo(middle?.low ?? 0, 12);
    for (const { low, value, high } of curve) {
      expect(low).toBeLessThanOrEqual(value + 1e-12);
      expect(value).toBeLessThanOrEqual(high + 1e-12);
    }
  });

  it('can be drawn with an interval that has no end', () => {
    const open = costCurve({ ...cost, high: Infinity }, 0.2, broods);
    for (const point of open) expect(Object.values(point).every(Number.isFinite)).toBe(true);
  });

  it('has nothing to draw without inbreeding or without counts', () => {
    expect(costCurve(cost, 0.2, [{ inbreeding: 0, counted: 9 }])).toEqual([]);
    expect(costCurve(cost, 0.2, [{ inbreeding: 0.1, counted: 0 }])).toEqual([]);
    expect(costCurve({ ...cost, smallest: null }, 0.2, broods)[3]?.smallest).toBeNull();
  });
});

describe('sizeCurve', () => {
  const change = { atSibMating: -2, low: -3, high: 1, smallest: 2.5 };

  it('is a line from the size without inbreeding, its ends turning about the broods’ middle', () => {
    const curve = sizeCurve(change, 40, broods, false);
    expect([curve[0]?.value, curve.at(-1)?.value]).toEqual([40, 38]);
    const middle = curve.find(({ inbreeding }) => inbreeding === 0.125);
    expect([middle?.low, middle?.value, middle?.high, middle?.smallest]).toEqual([39, 39, 39, 39]);
    expect(curve.at(-1)).toMatchObject({ low: 37.5, high: 39.5, smallest: 37.75 });
  });

  it('falls by shares where changes are shares', () => {
    const shares = { atSibMating: -0.2, low: -0.4, high: 0.1, smallest: 0.3 };
    const curve = sizeCurve(shares, 200, broods, true);
    expect(curve[0]?.value).toBeCloseTo(200, 9);
    expect(curve.at(-1)?.value).toBeCloseTo(160, 9);
    const end = curve.at(-1)!;
    // Half the way from the middle: the root of each change, from the middle's size.
    const middle = 200 * Math.sqrt(0.8);
    expect(end.low).toBeCloseTo(middle * Math.sqrt(0.6), 9);
    expect(end.high).toBeCloseTo(middle * Math.sqrt(1.1), 9);
    expect(end.smallest).toBeCloseTo(middle * Math.sqrt(0.7), 9);
  });
});
