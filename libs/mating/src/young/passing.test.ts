import { describe, expect, it } from 'vitest';
import { expectedYoung } from './expected-young.js';
import { chanceOfPassing, fryToRaise, meanShare, MOST_FRY, passingShares } from './passing.js';

const sure = { value: 0, standardError: 0, inbreeding: 0 };
const trait = { level: 100, additive: 50, commonBrood: 0, residual: 75 };

describe('what share of a brood passes', () => {
  it('is one share where nothing of the brood is unknown: half above the mean', () => {
    const young = expectedYoung(sure, sure, trait);
    const shares = passingShares([{ young, low: 100, high: null }]);
    expect(shares).toHaveLength(1);
    expect(shares[0]!.share).toBeCloseTo(0.5, 12);
    // At least 2 of 3, each with one chance in two: 4 of 8.
    expect(chanceOfPassing(shares, 2, 3, 1)).toBeCloseTo(0.5, 12);
  });

  it('keeps the mean of the whole spread however the spread is shared out', () => {
    // A young above 110 out of N(100, 100 + 44): z = 10 / 12. Reference: 1 - pnorm(10 / 12) = 0.2023284.
    const unsure = { ...sure, standardError: Math.sqrt(88) };
    const young = expectedYoung(unsure, unsure, trait);
    expect(young.between).toBeCloseTo(44, 12);
    const shares = passingShares([{ young, low: 110, high: null }]);
    expect(meanShare(shares)).toBeCloseTo(0.2023284, 6);
  });

  it('multiplies traits and looks', () => {
    const young = expectedYoung(sure, sure, trait);
    const one = { young, low: 100, high: null };
    const looks = [
      { weight: 0.5, share: 1 },
      { weight: 0.5, share: 0.25 },
    ];
    expect(meanShare(passingShares([one, one], looks))).toBeCloseTo(0.25 * 0.625, 12);
  });

  it('asks for more fry the fewer live, and for none where there is no limit', () => {
    const all = passingShares([{ young: expectedYoung(sure, sure, trait), low: null, high: null }]);
    expect(fryToRaise(all, 4, 0.95, 1)).toBe(4);
    const alive = fryToRaise(all, 4, 0.95, 0.5)!;
    expect(chanceOfPassing(all, 4, alive, 0.5)).toBeGreaterThanOrEqual(0.95);
    expect(chanceOfPassing(all, 4, alive - 1, 0.5)).toBeLessThan(0.95);
  });

  it('says that a chance cannot be reached where one of two possible pairs gives no such young', () => {
    const looks = [
      { weight: 0.7, share: 0.5 },
      { weight: 0.3, share: 0 },
    ];
    const shares = passingShares([], looks);
    expect(fryToRaise(shares, 1, 0.8, 1)).toBeNull();
    expect(fryToRaise(shares, 1, 0.6, 1)).not.toBeNull();
    const rare = passingShares([{ young: expectedYoung(sure, sure, trait), low: 200, high: null }]);
    expect(chanceOfPassing(rare, 1, MOST_FRY, 1)).toBeLessThan(0.01);
    expect(fryToRaise(rare, 1, 0.8, 1)).toBeNull();
  });
});
