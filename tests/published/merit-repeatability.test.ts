import { repeatability, scorerDifferences } from '@linewright/merit';
import { describe, expect, it } from 'vitest';

// Sokal RR & Rohlf FJ (1995) Biometry, 3rd ed., Box 9.1: widths of the scutum (micrometres) of tick larvae from four hosts; one-way
// analysis of variance with unequal sample sizes and estimate of the added variance component. Basis: data and printed values from
// memory, confirmed by independent computation.
describe('ticks on four hosts', () => {
  const hosts = [
    [380, 376, 360, 368, 372, 366, 374, 382],
    [350, 356, 358, 376, 338, 342, 366, 350, 344, 364],
    [354, 360, 362, 352, 366, 372, 362, 344, 342, 358, 351, 348, 348],
    [376, 344, 342, 372, 374, 360],
  ];
  const result = repeatability(hosts);

  it.each([
    ['meanSquareBetween', 602.6, 0.05],
    ['meanSquareWithin', 114.5, 0.05],
    ['f', 5.263, 0.0005],
    ['meanScores', 9.009, 0.0005],
    // Printed from rounded mean squares, so good to three digits only.
    ['varianceBetween', 54.19, 0.05],
    ['repeatability', 0.321, 0.0005],
  ] as const)('%s is %f', (field, printed, tolerance) => {
    expect(Math.abs(result[field] - printed)).toBeLessThanOrEqual(tolerance);
  });

  it('P lies below 0.01 and the interval is marked approximate', () => {
    expect(result.tail).toBeLessThan(0.01);
    expect(result.approximate).toBe(true);
    // SciPy 1.17.1: F distribution with 3 and 33 degrees of freedom, n0 for n.
    expect(result.tail).toBeCloseTo(0.0044451929332133345, 10);
    expect(result.interval.low).toBeCloseTo(0.051147003643702074, 8);
    expect(result.interval.high).toBeCloseTo(0.8901821330324203, 8);
  });
});

// Shrout PE & Fleiss JL (1979) Psychological Bulletin 86:420-428, Tables 2 to 4: six targets, four judges, ICC(1,1). Basis: from memory,
// confirmed by independent computation.
describe('six targets and four judges', () => {
  const result = repeatability([
    [9, 2, 5, 8],
    [6, 1, 3, 2],
    [8, 4, 6, 8],
    [7, 1, 2, 6],
    [10, 5, 6, 9],
    [6, 2, 4, 7],
  ]);
  it('between 11.24, within 6.26, intraclass correlation .17', () => {
    expect(Math.abs(result.meanSquareBetween - 11.24)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(result.meanSquareWithin - 6.26)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(result.repeatability - 0.17)).toBeLessThanOrEqual(0.005);
    expect(result.approximate).toBe(false);
  });
  it('with an interval from -.13 to .72 (SciPy 1.17.1 and the formula of the paper)', () => {
    expect(result.interval.low).toBeCloseTo(-0.13293232487475087, 8);
    expect(result.interval.high).toBeCloseTo(0.7225600623281211, 8);
  });
});

// Student (1908) Biometrika 6:1-25, from Cushny & Peebles (1905): additional hours of sleep of ten patients under two drugs; mean
// difference 1.58, standard deviation 1.23, interval as in every textbook since. Basis: from memory, confirmed by independent computation.
describe("Student's paired differences", () => {
  const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
  const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
  const scores = [
    ...first.map((value, k) => ({ fish: `p${k}`, scorer: 'b', value })),
    ...second.map((value, k) => ({ fish: `p${k}`, scorer: 'a', value })),
  ];
  it('mean 1.58, deviation 1.23, interval 0.70 to 2.46', () => {
    const [pair] = scorerDifferences(scores);
    expect(pair?.fish).toBe(10);
    expect(Math.abs(pair!.difference - 1.58)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(pair!.deviation! - 1.23)).toBeLessThanOrEqual(0.005);
    expect(pair!.interval!.low).toBeCloseTo(0.7001142367230174, 8);
    expect(pair!.interval!.high).toBeCloseTo(2.4598857632769824, 8);
  });
});
