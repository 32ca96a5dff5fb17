import { describe, expect, it } from 'vitest';
import { fQuantile, fUpperTail, studentTwoSided } from './distributions.js';
import { MeritError } from './merit-error.js';
import { repeatability } from './repeatability.js';
import { repeatGroups } from './repeats.js';
import { scorerDifferences } from './scorer-difference.js';

describe('repeatability', () => {
  it('is 1 when scores of a fish never differ, and below 0 when they differ more than fish do', () => {
    const perfect = repeatability([
      [1, 1],
      [4, 4],
    ]);
    expect(perfect.repeatability).toBe(1);
    expect(perfect.interval).toEqual({ low: 1, high: 1 });
    expect(
      repeatability([
        [1, 5],
        [2, 4],
      ]).repeatability,
    ).toBeCloseTo(-1, 12);
  });

  it('counts a fish scored once among the fish', () => {
    const { fish, scores, approximate } = repeatability([[1, 2], [5, 6], [3]]);
    expect([fish, scores, approximate]).toEqual([3, 5, true]);
  });

  it('refuses too few, equal and impossible scores', () => {
    for (const groups of [[], [[1, 2]], [[1], [2]], [[1, 1], [1]], [[1, NaN], [2]]])
      expect(() => repeatability(groups)).toThrow(MeritError);
  });
});

describe('groups of repeats', () => {
  const at = (fish: string, day: number) => ({ fish, day });
  it('leaves out scores too far apart in time', () => {
    const groups = repeatGroups([at('a', 60), at('a', 0), at('a', 9), at('b', 3)], 14);
    expect(groups).toEqual([[at('a', 0), at('a', 9)], [at('b', 3)]]);
  });
  it('counts the window from the first score, and takes the later of equal groups', () => {
    expect(repeatGroups([at('a', 0), at('a', 10), at('a', 20)], 14)[0]).toHaveLength(2);
    expect(repeatGroups([at('a', 0), at('a', 90)], 14)).toEqual([[at('a', 90)]]);
  });
});

describe('differences between scorers', () => {
  const score = (fish: string, scorer: string, value: number) => ({ fish, scorer, value });
  it('pairs only fish that both scored, a scorer twice on a fish by the mean', () => {
    const [pair, ...rest] = scorerDifferences([
      score('a', 'Wren', 4),
      score('a', 'Alder', 5),
      score('a', 'Alder', 6),
      score('b', 'Alder', 3),
    ]);
    expect(rest).toEqual([]);
    expect(pair).toEqual({
      first: 'Alder',
      second: 'Wren',
      fish: 1,
      difference: 1.5,
      deviation: null,
      interval: null,
    });
  });
});

// Computed with SciPy 1.17.1 (scipy.stats f and t), an independent library.
describe('distributions', () => {
  it.each([
    [0.95, 3, 20, 3.098391212140781],
    [0.975, 33, 3, 14.064563773913841],
    [0.95, 1, 1, 161.4476387975882],
    [0.99, 10, 30, 2.979093563633883],
  ])('F at %f with %i and %i', (probability, numerator, denominator, value) => {
    expect(fQuantile(probability, numerator, denominator) / value).toBeCloseTo(1, 10);
    expect(fUpperTail(value, numerator, denominator)).toBeCloseTo(1 - probability, 12);
  });
  it('t', () => {
    expect(studentTwoSided(0.95, 9)).toBeCloseTo(2.262157162798205, 10);
    expect(studentTwoSided(0.95, 1)).toBeCloseTo(12.706204736174694, 8);
    expect(fUpperTail(4, 3, 20)).toBeCloseTo(0.022076999662362404, 12);
    expect(() => studentTwoSided(0.95, 0)).toThrow(MeritError);
  });
});
