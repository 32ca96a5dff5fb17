import { describe, expect, it } from 'vitest';
import { lengthOf, type Point, spreadOf, spreadOfAPixel, spreadSeenAskew } from './geometry.js';

const at = (angle: number, reach = 80, from: Point = { x: 200, y: 150 }): Point => ({
  x: from.x + reach * Math.cos((angle * Math.PI) / 180),
  y: from.y + reach * Math.sin((angle * Math.PI) / 180),
});
const base = { x: 200, y: 150 };

describe('spread of a tail', () => {
  it.each([20, 90, 150, 179, 180, 181, 200, 300])(
    'of %d degrees is found, whatever the picture is turned by',
    (spread) => {
      for (let turn = 0; turn < 360; turn += 33) {
        const upper = at(turn - spread / 2, 70);
        const lower = at(turn + spread / 2, 95);
        expect(spreadOf(base, upper, lower, 'left')).toBeCloseTo(spread, 9);
        // The same picture in a mirror.
        const mirrored = ({ x, y }: Point): Point => ({ x: -x, y });
        expect(spreadOf(mirrored(base), mirrored(upper), mirrored(lower), 'right')).toBeCloseTo(
          spread,
          9,
        );
      }
    },
  );

  it('refuses rays that lie on the base or on one another, and takes three points in a line with the base between', () => {
    expect(() => spreadOf(base, base, at(90), 'left')).toThrow(/further out/);
    expect(() => spreadOf(base, at(40), at(40, 120), 'left')).toThrow(/one on the other/);
    expect(spreadOf(base, at(-90), at(90), 'left')).toBeCloseTo(180, 9);
  });

  it('is off by no more than a pixel costs when points are a pixel off', () => {
    const [upper, lower] = [at(-70), at(70)];
    const most = spreadOfAPixel(base, upper, lower);
    for (let k = 0; k < 50; k++) {
      const off = (point: Point, turn: number): Point => at(turn, 1, point);
      const spread = spreadOf(off(base, 37 * k), off(upper, 53 * k), off(lower, 91 * k), 'left');
      expect(Math.abs(spread - 140)).toBeLessThan(1.02 * most);
    }
  });

  it('seen askew looks wider below half a circle and narrower above it', () => {
    expect(spreadSeenAskew(150, 0)).toBeCloseTo(150, 9);
    expect(spreadSeenAskew(180, 40)).toBeCloseTo(180, 9);
    expect(spreadSeenAskew(150, 30)).toBeGreaterThan(152);
    expect(spreadSeenAskew(200, 30)).toBeLessThan(198);
  });
});

describe('a length', () => {
  const scale = { from: { x: 0, y: 0 }, to: { x: 0, y: 200 }, millimetres: 50 };

  it('is told in millimetres, along a bent line too', () => {
    expect(lengthOf([base, at(30, 160)], scale)).toBeCloseTo(40, 9);
    const bent = [
      { x: 0, y: 0 },
      { x: 30, y: 40 },
      { x: 30, y: 140 },
    ];
    expect(lengthOf(bent, scale)).toBeCloseTo(37.5, 9);
  });

  it.each([
    ['no millimetres', { ...scale, millimetres: 0 }],
    ['fewer than none', { ...scale, millimetres: -3 }],
    ['no number', { ...scale, millimetres: Number.NaN }],
    ['no length in the picture', { ...scale, to: scale.from }],
  ])('refuses a scale of %s', (_, wrong) => {
    expect(() => lengthOf([base, at(30)], wrong)).toThrow(/scale has no length/);
  });

  it('refuses one place alone', () => {
    expect(() => lengthOf([base], scale)).toThrow(/both ends/);
    expect(() => lengthOf([base, base], scale)).toThrow(/one place/);
  });
});
