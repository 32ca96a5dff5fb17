import { describe, expect, it } from 'vitest';
import { HeredityError } from '../heredity-error.js';
import { binomialMass, binomialTails, logFactorial } from './binomial-mass.js';
import { binomialTest } from './binomial.js';
import { broodSizePlan, chanceOfAtLeast } from './brood-size.js';
import { chiSquareUpperTail } from './chi-square.js';
import { goodnessOfFit } from './goodness-of-fit.js';
import { compareHypotheses, fryToTell } from './rival-hypotheses.js';
import { sampledMultinomial } from './sampled-multinomial.js';

const code = (expected: string) => expect.objectContaining({ code: expected }) as Error;
const half = (p: string | number) => [
  { weight: '19/20', probability: p },
  { weight: '1/20', probability: 0 },
];

describe('a certainty that no number of fry reaches', () => {
  it.each([['1/4'], ['1/8'], ['3/16'], [0.1]])(
    'is refused where it equals what can be reached at most (share %s in 19 of 20)',
    (share) => {
      expect(() => broodSizePlan({ probability: half(share), certainty: 0.95 })).toThrowError(
        code('BROOD_SIZE_UNREACHABLE'),
      );
    },
  );
  it('is refused where weights are doubles that miss the limit by a rounding', () => {
    const thirds = [0.1 + 0.2, 0.35 + 0.3, 1 - (0.1 + 0.2) - (0.35 + 0.3)];
    const mixture = thirds.map((weight, i) => ({ weight, probability: [0.5, 0.25, 0][i] ?? 0 }));
    for (const certainty of [0.95, 0.95 - 1e-12, 0.95 + 1e-12]) {
      expect(() => broodSizePlan({ probability: mixture, certainty })).toThrowError(
        code('BROOD_SIZE_UNREACHABLE'),
      );
    }
  });
  it('is given where it is only near the limit, and where all young are of the class', () => {
    const near = broodSizePlan({ probability: half('1/4'), certainty: '94/100' });
    expect(near.fry).toBe(16);
    expect(broodSizePlan({ probability: half(1), certainty: 0.95, atLeast: 3 }).fry).toBe(3);
    expect(broodSizePlan({ probability: '1/4', certainty: '9999999999/10000000000' }).fry).toBe(81);
  });
  it('ties are settled in whole numbers', () => {
    expect(broodSizePlan({ probability: '1/2', certainty: '1/2' }).fry).toBe(1);
    expect(broodSizePlan({ probability: '1/10', certainty: '19/100' }).fry).toBe(2);
    const just = { numerator: 19n * 10n ** 20n + 1n, denominator: 10n ** 22n };
    expect(broodSizePlan({ probability: '1/10', certainty: just }).fry).toBe(3);
  });
});

describe('binomial chances', () => {
  it('equal exact whole-number ones', () => {
    for (const [n, k] of [[5, 2], [40, 13], [90, 1], [90, 90]] as const) {
      let exact = 0;
      let ways = 1;
      for (let x = 0; x <= n; x++) {
        if (x >= k) exact += ways * 0.25 ** x * 0.75 ** (n - x);
        ways = (ways * (n - x)) / (x + 1);
      }
      expect(binomialTails(n, 0.25, k).reached / exact).toBeCloseTo(1, 11);
    }
  }); // prettier-ignore
  it('sum to 1 far out (a million fish)', () => {
    const { below, reached } = binomialTails(1_000_000, 0.3, 300_000);
    expect(below + reached).toBeCloseTo(1, 12);
    // Half below the mean, less half of the middle term and a skew of (2p - 1) / 6 of a standard deviation's density.
    expect(below).toBeGreaterThan(0.499);
    expect(below).toBeLessThan(0.5);
    expect(binomialMass(300_000, 1_000_000, 0.3)).toBeCloseTo(
      1 / Math.sqrt(2 * Math.PI * 210_000),
      8,
    );
  });
  it('rest on ln n! to the last digits', () => {
    let log = 0;
    for (let n = 2; n <= 170; n++) {
      log += Math.log(n);
      expect(logFactorial(n) / log).toBeCloseTo(1, 13);
    }
  });
});

describe('the work of a count', () => {
  it('100,000 wanted take a few thousand terms a trial, not 100,000', () => {
    const work = { terms: 0 };
    const plan = broodSizePlan({ probability: '1/1000', atLeast: 100_000, certainty: 0.95 }, work);
    expect(plan.fry).toBeGreaterThan(100_000_000);
    expect(work.terms).toBeLessThan(500_000);
  });
  it.each<[string, () => unknown]>([
    ['wanted', () => broodSizePlan({ probability: '1/4', atLeast: 4e8, certainty: 0.95 })],
    ['fry', () => chanceOfAtLeast({ probability: '1/4', atLeast: 1, fry: 1e12 })],
    ['fish of one class', () => goodnessOfFit([2e8, 0], [1, 0])],
    ['fish of two', () => goodnessOfFit([1e8, 1e8], [1, 1])],
    ['classes', () => goodnessOfFit(new Array<number>(5000).fill(1), new Array<number>(5000).fill(1))],
    ['trials', () => binomialTest({ successes: 1, trials: 2e8, probability: 0.5 })],
    ['degrees of freedom', () => chiSquareUpperTail(3, 2 ** 40)],
    ['shares', () => broodSizePlan({ probability: new Array<{ weight: number; probability: number }>(20_000).fill({ weight: 1 / 20_000, probability: 0.5 }), certainty: 0.5 })],
    ['hypotheses', () => compareHypotheses([3, 1], new Array<{ name: string; expected: number[] }>(500).fill({ name: 'x', expected: [3, 1] }))],
  ])('too many %s are refused by name', (_, ask) => {
    expect(ask).toThrowError(code('TOO_LARGE'));
    try {
      ask();
    } catch (error) {
      expect((error as HeredityError).message).toMatch(/at most .+ can be worked out\. \w+/);
    }
  }); // prettier-ignore
  it('shares too close to be told apart say how many fry it would take', () => {
    expect(() => fryToTell(0.5, 0.51)).toThrowError(/some \d+,000/);
  });
  it('a number of more letters than anyone writes is refused', () => {
    expect(() => goodnessOfFit([1, 2], ['1'.repeat(100_000), 1])).toThrowError(
      code('FRACTION_INVALID'),
    );
  });
});

describe('the exact test where all classes pool into one', () => {
  // Four loci of incomplete dominance: 1:2:1 four times over.
  const four = Array.from({ length: 81 }, (_, i) =>
    [1, 3, 9, 27].reduce((share, place) => share * (Math.floor(i / place) % 3 === 1 ? 2 : 1), 1),
  );
  const nine = four.map((_, i) => (i < 9 ? 1 : 0));
  it('four loci and nine fish are answered by drawing broods, and say so', () => {
    const fit = goodnessOfFit(nine, four);
    expect(fit.method).toBe('sampled');
    expect(fit.chiSquare).toBeNull();
    expect(fit.exact).toBeNull();
    expect(fit.standardError).toBeGreaterThan(0);
    expect(fit.notes.join()).toContain('drawn at random');
    expect(goodnessOfFit(nine, four).pValue).toBe(fit.pValue);
  });
  it('nine fish all of one rare class are an unlikely brood', () => {
    const all = four.map((_, i) => (i === 0 ? 9 : 0));
    expect(goodnessOfFit(all, four).verdict).toBe('poor');
  });
  it.each([
    [[0, 3], [1, 1]],
    [[0, 0, 3], [1, 2, 1]],
    [[4, 1, 0], [9, 3, 4]],
    [[2, 2, 2, 1], [9, 3, 3, 1]],
    [[7, 1, 0, 2], [9, 3, 3, 1]],
  ])('drawn p of %j at %j lies within four standard errors of the exact', (counts, ratio) => {
    const sum = ratio.reduce((a, b) => a + b, 0);
    const exact = goodnessOfFit(counts, ratio);
    expect(exact.method).toBe('exact');
    const drawn = sampledMultinomial(counts, ratio.map((one) => one / sum)); // prettier-ignore
    expect(Math.abs(drawn.pValue - exact.pValue)).toBeLessThanOrEqual(
      4 * drawn.standardError + 1e-4,
    );
  }); // prettier-ignore
  it('refuses what would have to draw without end', () => {
    expect(() =>
      goodnessOfFit([400_000, 300_000, 300_000], [4, 3, 3], { fittedParameters: 2 }),
    ).toThrowError(code('ARGUMENT_INVALID'));
  });
});
