import { describe, expect, it } from 'vitest';
import { binomialTest } from './binomial.js';
import { broodSizeFor, broodSizePlan, chanceOfAtLeast } from './brood-size.js';
import { chiSquareUpperTail } from './chi-square.js';
import { checkCounts, readBroodCount } from './counts.js';
import { goodnessOfFit } from './goodness-of-fit.js';
import { heterogeneity } from './heterogeneity.js';
import { compareHypotheses, fryToTell } from './rival-hypotheses.js';

const code = (expected: string) => expect.objectContaining({ code: expected }) as Error;

describe('chiSquareUpperTail', () => {
  it.each([2, 4, 8, 20])('with %i (even) degrees of freedom is the Poisson sum', (df) => {
    for (const x of [0.01, 0.5, 3, 17, 60, 300]) {
      let term = Math.exp(-x / 2);
      let sum = term;
      for (let j = 1; j < df / 2; j++) sum += term *= x / 2 / j;
      expect(chiSquareUpperTail(x, df) / sum).toBeCloseTo(1, 11);
    }
  });
  it('keeps the digits of tiny tails (reference: regularised upper gamma of an independent library)', () => {
    expect(chiSquareUpperTail(322.518, 3) / 1.329424108291354e-69).toBeCloseTo(1, 10);
    expect(chiSquareUpperTail(0.263, 1)).toBeCloseTo(0.6080665654220659, 13);
  });
  it('has its ends, and refuses nonsense', () => {
    expect(chiSquareUpperTail(0, 3)).toBe(1);
    expect(chiSquareUpperTail(Infinity, 3)).toBe(0);
    for (const [x, df] of [
      [-1, 1],
      [NaN, 1],
      [1, 0],
      [1, 1.5],
    ] as const) {
      expect(() => chiSquareUpperTail(x, df)).toThrowError(code('ARGUMENT_INVALID'));
    }
  });
});

describe('goodnessOfFit', () => {
  it('exact test by hand: 3 of 3 recessive at 1:1 has p = 2/8', () => {
    const fit = goodnessOfFit([0, 3], [1, 1]);
    expect(fit.method).toBe('exact');
    expect(fit.pValue).toBeCloseTo(0.25, 12);
    expect(fit.exact?.outcomes).toBe(4);
    expect(fit.chiSquare).toBeNull();
  });
  it('exact test of three classes by listing: (0, 0, 3) at 1:2:1', () => {
    // Outcomes no likelier than 1/64 are (3,0,0) and (0,0,3): 2/64.
    expect(goodnessOfFit([0, 0, 3], [1, 2, 1]).pValue).toBeCloseTo(2 / 64, 12);
  });
  it('pools small classes for chi-square and says which', () => {
    const fit = goodnessOfFit([30, 8, 9, 1], [9, 3, 3, 1], { labels: ['AB', 'Ab', 'aB', 'ab'] });
    expect(fit.pooled).toEqual([{ label: 'Ab + ab', from: ['Ab', 'ab'] }]);
    expect(fit.chiSquare?.df).toBe(2);
    expect(fit.exact).not.toBeNull();
    expect(fit.notes.join()).toContain('put together');
  });
  it('takes a degree of freedom for each fitted parameter', () => {
    expect(goodnessOfFit([30, 50, 20], [1, 2, 1], { fittedParameters: 1 }).chiSquare?.df).toBe(1);
  });
  it('calls an excluded class impossible', () => {
    const fit = goodnessOfFit([40, 1], [1, 0], { labels: ['single', 'double'] });
    expect(fit).toMatchObject({ verdict: 'impossible', pValue: 0, method: 'impossible' });
    expect(goodnessOfFit([40, 0], [1, 0])).toMatchObject({ verdict: 'agrees', pValue: 1 });
  });
  it('a class that is not expected and not seen changes nothing', () => {
    expect(goodnessOfFit([30, 0, 10], [3, 0, 1]).pValue).toBeCloseTo(
      goodnessOfFit([30, 10], [3, 1]).pValue,
      12,
    );
  });
  it.each<[string, () => unknown]>([
    ['COUNT_NEGATIVE', () => goodnessOfFit([-1, 4], [3, 1])],
    ['COUNT_NOT_WHOLE', () => goodnessOfFit([2.5, 4], [3, 1])],
    ['COUNT_IS_PERCENTAGE', () => goodnessOfFit([74.5, 25.5], [3, 1])],
    ['COUNT_IS_PERCENTAGE', () => goodnessOfFit([0.75, 0.25], [3, 1])],
    ['COUNT_TOTAL_MISMATCH', () => goodnessOfFit([30, 10], [3, 1], { scored: 50 })],
    ['CLASSES_MISMATCH', () => goodnessOfFit([30, 10], [9, 3, 4])],
    ['PROBABILITY_OUT_OF_RANGE', () => goodnessOfFit([30, 10], [3, -1])],
    ['ARGUMENT_INVALID', () => goodnessOfFit([0, 0], [3, 1])],
  ])('%s', (expected, ask) => {
    expect(ask).toThrowError(code(expected));
  });
});

describe('counts', () => {
  it('reads typed counts', () => {
    expect(readBroodCount({ counts: ['73', 23], scored: 96, ageDays: 90 }).counts).toEqual([
      73, 23,
    ]);
    expect(checkCounts([1, 2, 3])).toBe(6);
  });
  it.each<[string, () => unknown]>([
    ['COUNT_NOT_WHOLE', () => readBroodCount({ counts: ['many', 2], scored: 2, ageDays: null })],
    ['COUNT_NOT_WHOLE', () => readBroodCount({ counts: ['', 2], scored: 2, ageDays: null })],
    ['ARGUMENT_INVALID', () => readBroodCount({ counts: [1, 2], scored: 3, ageDays: -1 })],
    ['COUNT_NOT_WHOLE', () => checkCounts([NaN])],
  ])('%s', (expected, ask) => {
    expect(ask).toThrowError(code(expected));
  });
});

describe('binomialTest', () => {
  it('one-sided tails by hand', () => {
    const at = { successes: 0, trials: 3, probability: '1/2' };
    expect(binomialTest({ ...at, alternative: 'less' }).pValue).toBeCloseTo(1 / 8, 12);
    expect(binomialTest({ ...at, alternative: 'greater' }).pValue).toBeCloseTo(1, 12);
    expect(binomialTest(at).pValue).toBeCloseTo(1 / 4, 12);
    expect(() => binomialTest({ ...at, trials: 0 })).toThrowError(code('ARGUMENT_INVALID'));
  });
});

describe('heterogeneity', () => {
  it('adds up: total = pooled + heterogeneity, in statistics and degrees of freedom', () => {
    const { g } = heterogeneity([[30, 10], [20, 20], [33, 7]], [3, 1]); // prettier-ignore
    expect(g.total.statistic).toBeCloseTo(g.pooled.statistic + g.heterogeneity.statistic, 12);
    expect([g.total.df, g.pooled.df, g.heterogeneity.df]).toEqual([3, 1, 2]);
    expect(g.heterogeneity.pValue).toBeLessThan(0.05);
  });
  it('equal broods show none', () => {
    expect(heterogeneity([[30, 10], [30, 10]], [3, 1]).g.heterogeneity.statistic).toBeCloseTo(0, 12); // prettier-ignore
  });
});

describe('fry to raise', () => {
  it('reaches a certainty that is met exactly', () => {
    expect(broodSizeFor({ probability: '1/2', certainty: '1/2' })).toBe(1);
    expect(broodSizeFor({ probability: '1/2', certainty: '3/4' })).toBe(2);
  });
  it('counts survival to the age of scoring in', () => {
    expect(broodSizeFor({ probability: '1/4', certainty: 0.95, survival: '1/2' })).toBe(
      broodSizeFor({ probability: '1/8', certainty: 0.95 }),
    );
  });
  it('several of a class: the plan is the smallest that will do', () => {
    const plan = broodSizePlan({ probability: '1/4', atLeast: 10, certainty: 0.9 });
    expect(
      chanceOfAtLeast({ probability: '1/4', atLeast: 10, fry: plan.fry }),
    ).toBeGreaterThanOrEqual(0.9);
    expect(chanceOfAtLeast({ probability: '1/4', atLeast: 10, fry: plan.fry - 1 })).toBeLessThan(
      0.9,
    );
  });
  it('over uncertain parents averages, and says when certainty is out of reach', () => {
    const half = [{ weight: '1/2', probability: '1/4' }, { weight: '1/2', probability: 0 }]; // prettier-ignore
    expect(broodSizeFor({ probability: half, certainty: 0.45 })).toBe(9);
    expect(() => broodSizeFor({ probability: half, certainty: 0.6 })).toThrowError(
      code('BROOD_SIZE_UNREACHABLE'),
    );
  });
  it.each<[string, () => unknown]>([
    ['BROOD_SIZE_UNREACHABLE', () => broodSizeFor({ probability: 0, certainty: 0.5 })],
    ['BROOD_SIZE_UNREACHABLE', () => broodSizeFor({ probability: '1/4', certainty: 1 })],
    ['PROBABILITY_OUT_OF_RANGE', () => broodSizeFor({ probability: '1/4', certainty: 95 })],
    ['COUNT_NOT_WHOLE', () => broodSizeFor({ probability: '1/4', certainty: 0.9, atLeast: 1.5 })],
    ['COUNT_NEGATIVE', () => broodSizeFor({ probability: '1/4', certainty: 0.9, atLeast: -2 })],
  ])('%s', (expected, ask) => {
    expect(ask).toThrowError(code(expected));
  });
});

describe('rival hypotheses', () => {
  const rivals = [{ name: 'one recessive', expected: [3, 1] }, { name: 'two recessives', expected: [9, 7] }]; // prettier-ignore
  it('weighs by likelihood', () => {
    const { ranked, verdict } = compareHypotheses([73, 23], rivals);
    const ratio = (0.75 / (9 / 16)) ** 73 * (0.25 / (7 / 16)) ** 23;
    expect(ranked[1]?.timesLessLikely).toBeCloseTo(ratio, 6);
    expect(verdict).toContain('clearly favour "one recessive"');
  });
  it('does not claim more than the counts show', () => {
    expect(compareHypotheses([6, 3], rivals).verdict).toContain('do not tell');
    expect(compareHypotheses([5, 95], rivals).verdict).toContain('fits poorly');
    expect(compareHypotheses([5, 5], [{ name: 'none', expected: [1, 0] }]).verdict).toContain(
      'None',
    );
  });
  it('tells 3:1 from 9:7 with both errors at most 5 %, and not with one fish fewer', () => {
    const telling = fryToTell('3/4', '9/16');
    const tail = (p: number, from: number, to: number, n: number) => {
      let sum = 0;
      for (let x = from; x <= to; x++) {
        let log = x * Math.log(p) + (n - x) * Math.log(1 - p);
        for (let i = 1; i <= x; i++) log += Math.log((n - x + i) / i);
        sum += Math.exp(log);
      }
      return sum;
    };
    const { fry, cut, errors } = telling;
    expect(errors[0]).toBeCloseTo(tail(9 / 16, cut, fry, fry), 10);
    expect(errors[1]).toBeCloseTo(tail(3 / 4, 0, cut - 1, fry), 10);
    expect(Math.max(...errors)).toBeLessThanOrEqual(0.05);
    const n = fry - 1;
    const works = Array.from(
      { length: n + 2 },
      (_, c) => tail(9 / 16, c, n, n) <= 0.05 && tail(3 / 4, 0, c - 1, n) <= 0.05,
    );
    expect(works).not.toContain(true);
    expect(telling.steadyFrom).toBeGreaterThanOrEqual(fry);
  });
});
