import { describe, expect, it } from 'vitest';
import { colourDistance, labOf } from './colour.js';
import { type Marking, measuredOn } from './marking.js';
import { repeatErrorOf } from './repeat-error.js';

const size = { width: 40, height: 30 };
/** The left quarter red, the rest blue. */
const pixels = {
  ...size,
  channels: 3 as const,
  data: Array.from({ length: 40 * 30 }, (_, k) =>
    k % 40 < 10 ? [200, 30, 30] : [30, 60, 190],
  ).flat(),
};
const measure = (marking: Partial<Marking>, of = size): Promise<number> =>
  measuredOn({ kind: 'count', points: [], flat: true, ...marking }, of, () =>
    Promise.resolve(pixels),
  );
const corners = (k = 1) =>
  [
    [0, 0],
    [40, 0],
    [40, 30],
    [0, 30],
  ].map(([x, y]) => ({ x: k * x!, y: k * y! }));

describe('a marking', () => {
  it('counts what was tapped', async () => {
    expect(await measure({ points: corners() })).toBe(4);
  });

  it('tells the share of a colour, on a smaller copy too', async () => {
    const colour = { at: { x: 4, y: 10 }, tolerance: 20 };
    expect(await measure({ kind: 'colour', points: corners(), colour })).toBeCloseTo(25, 9);
    const wide = await measure({
      kind: 'colour',
      points: corners(),
      colour: { ...colour, tolerance: 500 },
    });
    expect(wide).toBe(100);
    const larger = { at: { x: 16, y: 40 }, tolerance: 20 };
    expect(
      await measure(
        { kind: 'colour', points: corners(4), colour: larger },
        { width: 160, height: 120 },
      ),
    ).toBeCloseTo(25, 9);
  });

  it('refuses points that are none, too few, or outside of the picture', async () => {
    await expect(measure({ points: [{ x: Number.NaN, y: 1 }] })).rejects.toThrow(/no place/);
    await expect(measure({ points: [{ x: 41, y: 1 }] })).rejects.toThrow(/40 by 30/);
    await expect(measure({ kind: 'spread', points: [{ x: 1, y: 1 }] })).rejects.toThrow(
      /1 of the 3/,
    );
    await expect(measure({ kind: 'length', points: corners() })).rejects.toThrow(/scale/);
    const line = [
      { x: 1, y: 1 },
      { x: 20, y: 1 },
      { x: 39, y: 1 },
    ];
    const colour = { at: { x: 4, y: 10 }, tolerance: 20 };
    await expect(measure({ kind: 'colour', points: line, colour })).rejects.toThrow(/outline/);
  });
});

describe('colours', () => {
  // Red and white of sRGB in L*a*b* as the formulas of CIE 15 give them, worked out apart from this program.
  it.each([
    [
      [255, 0, 0],
      [53.24, 80.09, 67.2],
    ],
    [
      [255, 255, 255],
      [100, 0, 0],
    ],
    [
      [0, 0, 0],
      [0, 0, 0],
    ],
  ] as const)('%j is %j', ([r, g, b], lab) => {
    expect(colourDistance(labOf(r, g, b), lab)).toBeLessThan(0.05);
  });
});

describe('the error of marking', () => {
  it('is worked out from pictures marked twice or more', () => {
    const error = repeatErrorOf([[170, 174], [150], [160, 160, 163]])!;
    expect(error.deviation).toBeCloseTo(Math.sqrt((8 + 6) / 3), 9);
    expect(error.repeatability).toBeCloseTo(Math.SQRT2 * 1.96 * error.deviation, 9);
    expect([error.pictures, error.markings]).toEqual([2, 5]);
    expect(repeatErrorOf([[170], [150]])).toBeNull();
  });
});
