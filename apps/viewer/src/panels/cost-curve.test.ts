import { describe, expect, it } from 'vitest';
import { costCurve } from './cost-curve.js';

const cost = { verdict: 'COSTS' as const, perGamete: 1.5, low: 0.5, high: 2.5, smallest: 1 };
const broods = [
  { inbreeding: 0, counted: 100 },
  { inbreeding: 0.25, counted: 100 },
];

describe('costCurve', () => {
  it('is exp(-A - B F) from no inbreeding to the most inbred brood', () => {
    const curve = costCurve(cost, 0.2, broods);
    expect(curve[0]?.share).toBeCloseTo(Math.exp(-0.2), 12);
    expect(curve.at(-1)?.inbreeding).toBe(0.25);
    expect(curve.at(-1)?.share).toBeCloseTo(Math.exp(-0.2 - 1.5 * 0.25), 12);
  });

  it('has its interval narrowest at the broods’ middle, and the fit within it', () => {
    const curve = costCurve(cost, 0.2, broods);
    const middle = curve.find(({ inbreeding }) => inbreeding === 0.125);
    expect(middle?.high).toBeCloseTo(middle?.low ?? 0, 12);
    for (const { low, share, high } of curve) {
      expect(low).toBeLessThanOrEqual(share + 1e-12);
      expect(share).toBeLessThanOrEqual(high + 1e-12);
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
