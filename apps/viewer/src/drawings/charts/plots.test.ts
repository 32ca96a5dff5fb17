import { DAY } from '@linewright/care';
import { describe, expect, it } from 'vitest';
import { bandText, stacked, type Band } from './founder-shares.js';
import { generationRows, highestShown, type GenerationPoint } from './generation-plot.js';
import { rowsOf } from './repeat-dots.js';
import { stepsUntil } from './survival-curve.js';
import { timeShown } from './water-plot.js';

const point = (generation: number, inbreeding: number): GenerationPoint => ({
  id: `${generation} ${inbreeding}`,
  tag: `G${generation}`,
  generation,
  inbreeding,
});

describe('generations of a plot', () => {
  it('stand the oldest first, each with its ends and its mean', () => {
    const rows = generationRows([point(2, 0.3), point(0, 0), point(2, 0.1)]);
    expect(rows.map(([generation]) => generation)).toEqual([0, 2]);
    expect(rows[1]![1]).toMatchObject({ count: 2, mean: 0.2, least: 0.1, most: 0.3, open: false });
    expect(rows[1]![1].fish.map(({ inbreeding }) => inbreeding)).toEqual([0.3, 0.1]);
  });

  it('make room for a guide a little above the highest F, not for one far above it', () => {
    expect(highestShown([point(0, 0.2)], [{ at: 0.25, label: 'full sibs' }])).toBe(0.25);
    expect(highestShown([point(0, 0.02)], [{ at: 0.25, label: 'full sibs' }])).toBe(0.1);
  });
});

describe('the time a water plot shows', () => {
  it('gives one reading a day of its own, and many a little room on either side', () => {
    const at = (days: number) => ({ id: String(days), at: new Date(days * DAY), unionised: 0 });
    expect(timeShown([at(10)])).toEqual([9.5 * DAY, 10.5 * DAY]);
    expect(timeShown([at(0), at(100)])).toEqual([-4 * DAY, 104 * DAY]);
  });
});

describe('a curve of survival', () => {
  it('begins with all alive and goes on level to where it ends', () => {
    expect(
      stepsUntil(
        [
          [3, 0.9],
          [8, 0.5],
          [20, 0.4],
        ],
        10,
      ),
    ).toEqual([
      [0, 1],
      [3, 0.9],
      [8, 0.5],
      [10, 0.5],
    ]);
    expect(stepsUntil([], 7)).toEqual([
      [0, 1],
      [7, 1],
    ]);
  });
});

describe('repeated scores', () => {
  it('make a row a fish, the highest mean first', () => {
    const dot = (fishId: string, value: number) => ({
      fishId,
      tag: fishId,
      scorer: 's',
      value,
      on: '',
    });
    const rows = rowsOf([dot('a', 3), dot('b', 5), dot('a', 9)]);
    expect(rows.map(({ id, dots }) => [id, dots.length])).toEqual([
      ['a', 2],
      ['b', 1],
    ]);
  });
});

describe('founders’ shares', () => {
  const band = (key: string, ...shares: number[]): Band => ({ key, label: key, fill: 0, shares });

  it('stand on top of each other, without those that have none', () => {
    const bands = [band('a', 0.5), band('b', 0), band('c', 0.25)];
    expect(stacked(bands, 0).map(({ band: { key }, from }) => [key, from])).toEqual([
      ['a', 0],
      ['c', 0.5],
    ]);
  });

  it('are named with their share where it fits, else with the beginning of their name', () => {
    expect(bandText('F0-01', 0.25, 120)).toBe('F0-01  25 %');
    expect(bandText('F0-01-from-afar', 0.25, 60)).toBe('F0-01-…');
  });
});
