/**
 * Goodness of fit against printed values. Tolerance: half a unit of the last printed place.
 *
 * - Mendel G (1866) Verh naturforsch Ver Brünn 4:3-47: seven crosses of one pair, and the cross of two (read in the source).
 * - Fisher RA (1936) Ann Sci 1:115-137: the seven together, 2.139 on 7 degrees of freedom, P 0.95 (read in the source); to four
 *   places, table V, 2.1389 (from memory, confirmed by independent computation).
 * - McClean P, NDSU PLSC 431 notes: 9:3:3:1 on 315:108:101:32, chi-square 0.47, P > 0.90 (read in the source).
 * - The same counts against a wrong 1:1:1:1 (read in the source): the page prints 322.54 because one cell reads 82.389
 *   where the counts give 82.367; the total of its other cells and the right one is 322.518.
 * - Critical values of chi-square to six figures (read in the source).
 * - Conover WJ (1971) Practical Nonparametric Statistics, p. 97 (from memory, confirmed by independent computation).
 */
import {
  binomialTest,
  chiSquareUpperTail,
  goodnessOfFit,
  heterogeneity,
} from '@linewright/heredity';
import { describe, expect, it } from 'vitest';

/** Closeness to half a unit of the last printed decimal. */
const printed = (actual: number | undefined, value: number, decimals: number) =>
  expect(Math.abs((actual ?? NaN) - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-12);

const mendel: [string, [number, number], number, number][] = [
  ['round, wrinkled', [5474, 1850], 0.263, 0.608],
  ['yellow, green seed', [6022, 2001], 0.015, 0.903],
  ['violet, white flower', [705, 224], 0.391, 0.532],
  ['inflated, constricted pod', [882, 299], 0.064, 0.801],
  ['green, yellow pod', [428, 152], 0.451, 0.502],
  ['axial, terminal flower', [651, 207], 0.35, 0.554],
  ['long, short stem', [787, 277], 0.607, 0.436],
];

describe('Mendel 1866, one pair of characters, 3:1', () => {
  it.each(mendel)('%s', (_, counts, chiSquare, p) => {
    const fit = goodnessOfFit(counts, [3, 1]);
    expect(fit.chiSquare?.df).toBe(1);
    printed(fit.chiSquare?.statistic, chiSquare, 3);
    printed(fit.chiSquare?.pValue, p, 3);
  });
  it('all seven together (Fisher 1936)', () => {
    const { chiSquare } = heterogeneity(
      mendel.map(([, counts]) => counts),
      [3, 1],
    );
    expect(chiSquare.total.df).toBe(7);
    printed(chiSquare.total.statistic, 2.139, 3);
    printed(chiSquare.total.statistic, 2.1389, 4);
    printed(chiSquare.total.pValue, 0.952, 3);
  });
});

describe('Mendel 1866, two pairs of characters', () => {
  const counts = [315, 108, 101, 32];
  it('fits 9:3:3:1', () => {
    const fit = goodnessOfFit(counts, [9, 3, 3, 1]);
    expect(fit.chiSquare?.df).toBe(3);
    printed(fit.chiSquare?.statistic, 0.47, 2);
    expect(fit.chiSquare?.pValue).toBeGreaterThan(0.9);
    expect(fit.verdict).toBe('agrees');
  });
  it('rejects 1:1:1:1, with the right total and not the misprinted one', () => {
    const fit = goodnessOfFit(counts, [1, 1, 1, 1]);
    expect(fit.verdict).toBe('poor');
    printed(fit.chiSquare?.statistic, 322.518, 3);
    printed(fit.cells[3]?.contribution, 82.367, 3);
    // The page's total: the other three cells as computed here, with its own fourth one.
    const others = fit.cells.slice(0, 3).reduce((sum, cell) => sum + cell.contribution, 0);
    printed(others + 82.389, 322.54, 2);
    expect(Math.abs((fit.chiSquare?.statistic ?? 0) - 322.54)).toBeGreaterThan(0.02);
  });
});

describe('critical values of chi-square', () => {
  const alpha = [0.1, 0.05, 0.025, 0.01, 0.005, 0.001];
  const table: number[][] = [
    [2.70554, 3.84146, 5.02389, 6.6349, 7.87944, 10.8276],
    [4.60517, 5.99146, 7.37776, 9.21034, 10.5966, 13.8155],
    [6.25139, 7.81473, 9.3484, 11.3449, 12.8382, 16.2662],
    [7.77944, 9.48773, 11.1433, 13.2767, 14.8603, 18.4668],
    [9.23636, 11.0705, 12.8325, 15.0863, 16.7496, 20.515],
    [10.6446, 12.5916, 14.4494, 16.8119, 18.5476, 22.4577],
    [12.017, 14.0671, 16.0128, 18.4753, 20.2777, 24.3219],
    [13.3616, 15.5073, 17.5345, 20.0902, 21.955, 26.1245],
    [14.6837, 16.919, 19.0228, 21.666, 23.5894, 27.8772],
    [15.9872, 18.307, 20.4832, 23.2093, 25.1882, 29.5883],
  ];
  it.each(table.map((row, i) => [i + 1, row] as const))('%i degrees of freedom', (df, row) => {
    row.forEach((value, i) => {
      // The value printed to three decimals is that whose tail is alpha: the tail is alpha within its rounding.
      const at = alpha[i] ?? 0;
      expect(chiSquareUpperTail(value - 0.0005, df)).toBeGreaterThanOrEqual(at);
      expect(chiSquareUpperTail(value + 0.0005, df)).toBeLessThanOrEqual(at);
    });
  });
});

describe('binomial test', () => {
  it('Conover: 682 of 925 against 3/4', () => {
    const test = binomialTest({ successes: 682, trials: 925, probability: '3/4' });
    printed(test.pValue, 0.3825, 4);
    printed(test.estimate, 0.7372973, 7);
  });
  it('is the exact multinomial test of two classes', () => {
    expect(goodnessOfFit([682, 243], [3, 1]).exact?.pValue).toBeCloseTo(
      binomialTest({ successes: 682, trials: 925, probability: '3/4' }).pValue,
      10,
    );
  });
});

describe('percentages of an unknown number (reported from yellow x yellow and outcrosses, no counts)', () => {
  it('are flagged or refused as data', async () => {
    const { readBroodCount } = await import('@linewright/heredity');
    expect(() =>
      readBroodCount({ counts: [40, 40, 10, 10], scored: null, ageDays: null }),
    ).toThrowError(expect.objectContaining({ code: 'COUNT_TOTAL_MISSING' }) as Error);
    expect(() =>
      readBroodCount({ counts: ['25%', '75%'], scored: 100, ageDays: 120 }),
    ).toThrowError(expect.objectContaining({ code: 'COUNT_IS_PERCENTAGE' }) as Error);
    expect(goodnessOfFit([25, 75], [1, 3]).notes.join()).toContain('percentages');
  });
});
