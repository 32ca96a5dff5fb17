/**
 * Number of young to raise.
 *
 * - At least one recessive at a share of 1/4: ceil(ln(1 - P) / ln(3/4)) (from memory, confirmed by independent computation).
 * - Helms T (2000) NDSU notes on advanced genetics, progeny needed to establish a genotype: 10.4 and 16.0 (read in the
 *   source). The notes round these to 10 and 16; the numbers that give the certainty are 11 and 17.
 * - At least one with 95 % chance at shares 1/2 ... 1/16: computed reference.
 */
import { broodSizeFor, broodSizePlan, chanceOfAtLeast } from '@linewright/heredity';
import { describe, expect, it } from 'vitest';

describe('fry to see at least one', () => {
  it.each([
    ['0.90', 9],
    ['0.95', 11],
    ['0.99', 17],
    ['0.999', 25],
  ])('share 1/4, certainty %s: %i', (certainty, fry) => {
    expect(broodSizeFor({ probability: '1/4', certainty })).toBe(fry);
  });
  it.each([
    ['1/2', 5],
    ['1/4', 11],
    ['1/8', 23],
    ['1/16', 47],
  ])('share %s, certainty 0.95: %i', (probability, fry) => {
    expect(broodSizeFor({ probability, certainty: 0.95 })).toBe(fry);
  });
  it.each([
    [0.95, 10.4, 11, 10],
    [0.99, 16.0, 17, 16],
  ])(
    'certainty %f: %f before rounding, %i to be sure, not %i',
    (certainty, unrounded, fry, rounded) => {
      const plan = broodSizePlan({ probability: '1/4', certainty });
      expect(Math.abs((plan.unrounded ?? 0) - unrounded)).toBeLessThanOrEqual(0.05);
      expect(plan.fry).toBe(fry);
      expect(chanceOfAtLeast({ probability: '1/4', atLeast: 1, fry: rounded })).toBeLessThan(
        certainty,
      );
    },
  );
});
