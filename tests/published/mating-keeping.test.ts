import { PairWorths } from '@linewright/mating';
import { describe, expect, it } from 'vitest';

/** One trait, a point for each unit, against a line of mean 0; nothing to choose from and no cost of F. */
const worthsOf = (
  males: { value: number; standardError: number }[],
  females: { value: number; standardError: number }[],
) => {
  const side = (list: typeof males) => ({
    value: Float64Array.from(list, ({ value }) => value),
    standardError: Float64Array.from(list, ({ standardError }) => standardError),
  });
  const none = (list: typeof males) => new Float64Array(list.length);
  return new PairWorths({
    traits: [
      {
        ...{ level: 0, additive: 1, commonBrood: 0, residual: 0 },
        aim: { traitId: 't', better: 'higher', low: null, high: null, worth: 1 },
        line: { mean: 0, deviation: 1 },
        ...{ males: side(males), females: side(females) },
      },
    ],
    looks: [],
    inbreeding: { males: none(males), females: none(females) },
    ...{ coancestry: () => 0, keep: 1, raised: 1, inbreedingCost: 0, load: 0 },
  });
};

describe('Mrode (2014) Linear Models for the Prediction of Animal Breeding Values, 3rd ed., example 1.4 (read in the source)', () => {
  it('a fish of 180 is worth 125 as the parent of young with a mate of 70: the parent average as printed', () => {
    const worths = worthsOf([{ value: 180, standardError: 0 }], [{ value: 70, standardError: 0 }]);
    expect(worths.overAll(0).worth).toBeCloseTo(125, 10);
  });

  it('and over several mates it is worth the mean of the parent averages, its own error half of its value’s', () => {
    const worths = worthsOf(
      [{ value: 180, standardError: 12 }],
      [
        { value: 70, standardError: 30 },
        { value: 0, standardError: 30 },
      ],
    );
    const { worth, slopes, looksVariance } = worths.overAll(0);
    expect(worth).toBeCloseTo((125 + 90) / 2, 10);
    expect(slopes[0]! * 12).toBeCloseTo(6, 10);
    expect(looksVariance).toBe(0);
  });
});
