import { describe, expect, it } from 'vitest';
import { traitPoints } from '../simulated/fish-judge.js';
import type { TraitAim } from '../purpose/line-purpose.js';
import { BestOfBrood, bestOfBrood } from './best-of-brood.js';
import { inbreedingCost, STATED_LOSS } from './inbreeding-cost.js';
import { LookShares } from './look-shares.js';
import { PairWorths, type WorthStock } from './pair-worths.js';
import { expectedPoints } from './expected-points.js';

const higher: TraitAim = { traitId: 'spread', better: 'higher', low: 170, high: null, worth: 2 };
const variation = { level: 170, additive: 40, commonBrood: 3, residual: 20 };
const line = { mean: 170, deviation: 8 };

const stock = (change: Partial<WorthStock> = {}): WorthStock => ({
  traits: [
    {
      ...variation,
      aim: higher,
      line,
      males: { value: Float64Array.of(4, 0), standardError: Float64Array.of(2, 1) },
      females: { value: Float64Array.of(2, -6), standardError: Float64Array.of(1, 3) },
    },
  ],
  looks: [],
  inbreeding: { males: new Float64Array(2), females: new Float64Array(2) },
  coancestry: (m, f) => (m === f ? 0.25 : 0),
  keep: 4,
  raised: 40,
  inbreedingCost: 1.5,
  load: 0,
  ...change,
});

describe('the worth of a pair', () => {
  it('is the mean of the brood, what choosing adds, and what F takes away', () => {
    const worth = new PairWorths(stock()).of(0, 0);
    expect(worth.parts.traits).toEqual([6]);
    // Half of the 40 within the brood is inherited.
    expect(worth.parts.choice).toBeCloseTo((2 * bestOfBrood(40, 4) * 20) / Math.sqrt(40), 10);
    expect(worth.parts.inbreeding).toBeCloseTo(-3.75, 12);
    expect(worth.worth).toBeCloseTo(6 + worth.parts.choice - 3.75, 12);
    expect(worth.standardError).toBeCloseTo(2 * Math.sqrt(5 / 4), 12);
  });

  it('is the same in the matrix and one by one', () => {
    const worths = new PairWorths(stock());
    const { worth, standardError } = worths.matrix();
    for (const [m, f] of [
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
    ] as const) {
      expect(worth[m * 2 + f]).toBe(worths.of(m, f).worth);
      expect(worth[m * 2 + f]).toBe(worths.worth(m, f));
      expect(standardError[m * 2 + f]).toBe(worths.of(m, f).standardError);
    }
  });

  it('rests on the young that are expected', () => {
    const worths = new PairWorths(stock());
    const young = worths.young(0, 1, 1);
    expect(young.mean).toBe(167);
    const { parts } = worths.of(1, 1);
    expect(parts.traits[0]).toBeCloseTo(2 * (young.mean - 170), 12);
    const { mendelian } = young.parts;
    const chosen = (2 * bestOfBrood(40, 4) * mendelian) / Math.sqrt(young.within);
    expect(parts.choice).toBeCloseTo(chosen, 12);
  });

  it('gains nothing by choosing among young that differ by luck alone', () => {
    const inbred = { males: Float64Array.of(1, 1), females: Float64Array.of(1, 1) };
    expect(new PairWorths(stock({ inbreeding: inbred })).of(0, 1).parts.choice).toBe(0);
  });

  it('counts that the errors of relatives go together: more for their pair, less between pairs of sibs', () => {
    const [trait] = stock().traits;
    // Males a, b and females c, d: a goes together with c, and both females with each other.
    const errorCovariance = new Float64Array(16);
    const together = (i: number, j: number, covariance: number): void => {
      errorCovariance[4 * i + j] = errorCovariance[4 * j + i] = covariance;
    };
    together(0, 2, 1.5);
    together(2, 3, 2);
    const worths = new PairWorths(stock({ traits: [{ ...trait!, errorCovariance }] }));
    const alone = new PairWorths(stock());
    expect(worths.of(0, 0).standardError).toBeCloseTo(2 * Math.sqrt((4 + 1 + 2 * 1.5) / 4), 12);
    expect(worths.young(0, 0, 0).parts.parentsErrors).toBeCloseTo(2, 12);
    expect(worths.of(1, 0).standardError).toBe(alone.of(1, 0).standardError);
    expect(worths.differenceError([[0, 0]], [[0, 1]])).toBeCloseTo(Math.sqrt(1 + 9 - 2 * 2), 12);
    expect(worths.differenceError([[0, 0]], [])).toBeCloseTo(worths.of(0, 0).standardError, 12);
    expect(alone.differenceError([[0, 0]], [])).toBeCloseTo(alone.of(0, 0).standardError, 12);
  });

  it('lets the error of a shared parent cancel in a difference', () => {
    const worths = new PairWorths(stock());
    // The same male: only the two females' errors are left, half of each value, times two points.
    expect(worths.differenceError([[0, 0]], [[0, 1]])).toBeCloseTo(Math.sqrt(1 + 9), 12);
    expect(worths.differenceError([[0, 0]], [[1, 1]])).toBeCloseTo(Math.sqrt(4 + 1 + 1 + 9), 12);
    expect(worths.differenceError([[0, 1]], [[0, 1]])).toBe(0);
    // Exchanged mates: the same four fish on both sides.
    const [straight, crossed] = [
      [
        [0, 0],
        [1, 1],
      ],
      [
        [0, 1],
        [1, 0],
      ],
    ] as const;
    expect(worths.differenceError(straight, crossed)).toBe(0);
    expect(worths.differenceError(straight, [])).toBeCloseTo(Math.sqrt(4 + 1 + 1 + 9), 12);
    expect(worths.differenceError([...straight, [0, 1]], straight)).toBe(
      worths.of(0, 1).standardError,
    );
    expect(worths.notToldApart([0, 0], [1, 0])).toBe(true);
    expect(worths.notToldApart([0, 0], [0, 1])).toBe(
      Math.abs(worths.worth(0, 0) - worths.worth(0, 1)) < 2 * Math.sqrt(10),
    );
  });

  it('counts fewer young to choose from where inbreeding costs lives', () => {
    const worths = new PairWorths(stock({ load: 2 }));
    expect(worths.of(0, 0).raised).toBeCloseTo(40 * Math.exp(-0.5), 12);
    expect(worths.of(0, 1).raised).toBe(40);
    expect(worths.of(0, 0).worth).toBeLessThan(new PairWorths(stock()).of(0, 0).worth);
  });

  it('is 0 for all where nothing is asked for, so that order falls to F', () => {
    const worths = new PairWorths(stock({ traits: [], inbreedingCost: 0 }));
    expect([...worths.matrix().worth]).toEqual([0, 0, 0, 0]);
  });

  it.each([{ keep: 0 }, { raised: Number.NaN }, { inbreedingCost: -1 }, { load: -1 }])(
    'refuses %o',
    (change) => {
      expect(() => new PairWorths(stock(change))).toThrow(
        expect.objectContaining({ code: 'MATING_BAD_VALUE' }) as Error,
      );
    },
  );
});

describe('a look', () => {
  const unsure = [
    { genotype: 'Bl/bl', probability: 0.5 },
    { genotype: 'Bl/Bl', probability: 0.5 },
  ];
  const shares = new LookShares(
    [{ bl: 'Bl/bl' }, { bl: unsure }, {}],
    [{ bl: 'bl/bl' }, { bl: unsure }],
    { show: { bl: 'steel' } },
  );

  it('comes with the mean over what the parents may carry', () => {
    expect(shares.share(0, 0)).toBe(0.5);
    expect(shares.variance(0, 0)).toBe(0);
    // Half of the time a carrier by steel: 1/2; else none.
    expect(shares.share(1, 0)).toBe(0.25);
    expect(shares.variance(1, 0)).toBe(0.0625);
    expect(shares.share(1, 1)).toBe(0.25 / 4);
    expect(shares.possible(1, 0)!.toSorted((a, b) => a.share - b.share)).toEqual([
      { weight: 0.5, share: 0 },
      { weight: 0.5, share: 0.5 },
    ]);
  });

  it('is not known where nothing is known of a parent', () => {
    expect(shares.share(2, 0)).toBeNull();
    expect(shares.possible(2, 0)).toBeNull();
    expect(shares.variance(2, 0)).toBe(0);
  });

  it('adds to the worth, to its error and to what there is to choose from', () => {
    const aim = {
      look: { show: { bl: 'steel' } },
      wanted: true,
      worth: 8,
      required: false,
    } as const;
    const worths = new PairWorths(
      stock({ traits: [], inbreedingCost: 0, looks: [{ aim, shares }] }),
    );
    const { parts, standardError } = worths.of(1, 0);
    expect(parts.looks).toEqual([2]);
    expect(standardError).toBeCloseTo(8 * 0.25, 12);
    expect(parts.choice).toBeCloseTo(bestOfBrood(40, 4) * 8 * Math.sqrt(0.25 * 0.75), 12);
    const against = new PairWorths(
      stock({ traits: [], inbreedingCost: 0, looks: [{ aim: { ...aim, wanted: false }, shares }] }),
    );
    expect(against.of(1, 0).parts.looks).toEqual([-2]);
  });
});

describe('points', () => {
  it('of a range are lost on both sides of it', () => {
    const within: TraitAim = { traitId: 'x', better: 'within', low: 10, high: 12, worth: 3 };
    const at = (mean: number) => expectedPoints(within, mean, 0).mean;
    for (const one of [9, 11, 14]) expect(at(one)).toBeCloseTo(traitPoints(within, one), 12);
    expect([at(9), at(14)]).toEqual([-3, -6]);
    // One limit at the mean: worth times the deviation over the root of 2 pi; variance (1/2 - 1/2pi) of it.
    const half = expectedPoints({ ...within, high: null }, 10, 4);
    expect(half.mean).toBeCloseTo((-3 * 2) / Math.sqrt(2 * Math.PI), 12);
    expect(half.variance).toBeCloseTo(36 * (0.5 - 1 / (2 * Math.PI)), 12);
    expect(half.slope).toBeCloseTo(1.5, 12);
  });

  it('fall with a trait of which less is better', () => {
    expect(expectedPoints({ ...higher, better: 'lower' }, 5, 4)).toEqual({
      mean: -10,
      variance: 16,
      slope: -2,
    });
  });
});

describe('the best of a brood', () => {
  it('takes numbers between two whole ones as between their neighbours', () => {
    const best = new BestOfBrood(2);
    expect(best.of(10)).toBe(bestOfBrood(10, 2));
    expect(best.of(10.25)).toBeCloseTo(0.75 * bestOfBrood(10, 2) + 0.25 * bestOfBrood(11, 2), 12);
    expect(best.of(1.5)).toBe(0);
  });

  it('is no better than the brood where all are kept', () => {
    expect(bestOfBrood(4, 4)).toBe(0);
    expect(() => bestOfBrood(0, 1)).toThrow(
      expect.objectContaining({ subject: 'raised' }) as Error,
    );
  });
});

describe('what inbreeding costs', () => {
  it('is what the keeper states, else a share of the spread of points', () => {
    const traits = stock().traits;
    expect(inbreedingCost(4, traits)).toEqual({ points: 4, basis: 'person' });
    const stated = inbreedingCost(null, traits);
    expect(stated.basis).toBe('stated-rate');
    expect(stated.points).toBeCloseTo(STATED_LOSS * 16, 12);
  });
});
