import { describe, expect, it } from 'vitest';
import { curvesOf } from './heritability-curves.js';

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const grid = (from: number, to: number, cells: number) =>
  Array.from({ length: cells }, (_, k) => ({
    heritability: from + ((k + 0.5) * (to - from)) / cells,
    probability: 1 / cells,
  }));

describe('curvesOf', () => {
  it('gives a flat prior the same chance in each cell', () => {
    const { cells, before } = curvesOf(grid(0, 1, 20), 'FLAT');
    for (const cell of cells) expect(cell.before).toBeCloseTo(0.05, 12);
    for (const point of before) expect(point.likely).toBeCloseTo(0.05, 12);
  });

  it('gives the published prior its own shape: all of it over the whole grid, its mean at 0.28', () => {
    const { cells } = curvesOf(grid(0, 1, 20), 'FISH_SIZE');
    expect(sum(cells.map((cell) => cell.before))).toBeCloseTo(1, 2);
    expect(sum(cells.map((cell) => cell.before * cell.heritability))).toBeCloseTo(0.28, 2);
  });

  it('gives a fine grid over a part of the scale only its part of the prior', () => {
    const { cells, before } = curvesOf(grid(0.4, 0.6, 20), 'FLAT');
    expect(sum(cells.map((cell) => cell.before))).toBeCloseTo(0.2, 12);
    expect(before[0]?.likely).toBeCloseTo(0.01, 12);
  });
});
