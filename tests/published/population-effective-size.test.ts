import {
  effectiveSizeForInbreeding,
  effectiveSizeFromFamilies,
  effectiveSizeFromSexes,
  effectiveSizeToKeepAllele,
  harmonicMeanEffectiveSize,
  inbreedingFromDrift,
  rateOfInbreeding,
  realisedEffectiveSize,
} from '@linewright/kinship';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

describe('effective size from numbers of sexes', () => {
  // US Fish and Wildlife Service, Inland Salmonid Broodstock Handbook, p. 1-8; two decimals. Basis: read in the source.
  it.each([
    [1, 99, 3.96],
    [2, 2, 4.0],
  ])('of %i males and %i females is %f', (males, females, printed) => {
    expect(Math.abs(effectiveSizeFromSexes(males, females) - printed)).toBeLessThanOrEqual(0.005);
  });

  // Holsinger KE (2005) lecture notes, University of Connecticut; one decimal. Basis: read in the source.
  it('of 1 male and 10 females is 3.6', () => {
    expect(Math.abs(effectiveSizeFromSexes(1, 10) - 3.6)).toBeLessThanOrEqual(0.05);
  });

  // Oldenbroek K & van der Waaij L (2015) Textbook Animal Breeding and Genetics, 6.15 (the rule of 0.5 to 1 percent a generation).
  // Basis: read in the source; dF = 1/(8 Nm) + 1/(8 Nf).
  it.each([
    [25, 25, 0.01],
    [50, 50, 0.005],
  ])('of %i and %i gives a rate of %f a generation', (males, females, printed) => {
    const rate = rateOfInbreeding(effectiveSizeFromSexes(males, females));
    expect(Math.abs(rate - printed)).toBeLessThanOrEqual(0.00005);
    expect(rate).toBeCloseTo(1 / (8 * males) + 1 / (8 * females), 15);
  });
});

describe('effective size over generations and families', () => {
  // Hartl DL & Clark AG, Principles of Population Genetics; one decimal. Basis: from memory, confirmed by independent computation.
  it('is the harmonic mean: 29.4 for 1000, 10 and 1000', () => {
    expect(Math.abs(harmonicMeanEffectiveSize([1000, 10, 1000]) - 29.4)).toBeLessThanOrEqual(0.05);
  });

  // (4N - 2) / (V + 2): Kimura M & Crow JF (1963) Evolution 17:279-288, also Falconer & Mackay (1996) ch. 4. Basis: from memory,
  // confirmed by independent computation.
  it('nearly doubles with equal families and equals N with variance 2 as N grows', () => {
    expect(effectiveSizeFromFamilies([2, 2, 2, 2])).toBeCloseTo(2 * 4 - 1, 12);
    expect(effectiveSizeFromFamilies([0, 4, 0, 4])).toBeCloseTo((4 * 4 - 2) / (4 + 2), 12);
    const uneven = Array.from({ length: 400 }, (_, k) => [0, 2, 2, 4][k % 4]!);
    expect(effectiveSizeFromFamilies(uneven)).toBeCloseTo((4 * 400 - 2) / 4, 9);
  });
});

// Falconer DS & Mackay TFC (1996), eq. 3.12: F(t) = 1 - (1 - 1/2Ne)^t. Basis: computed reference, no printed number.
describe('inbreeding from drift', () => {
  it('compounds; handbooks for fish farmers add up', () => {
    expect(inbreedingFromDrift(4, 1)).toBeCloseTo(1 / 8, 12);
    expect(inbreedingFromDrift(4, 2)).toBeCloseTo(1 - 49 / 64, 12);
    // F of 5 percent in 10 generations: 100 by adding up (t / 2F), less when compounded.
    expect(effectiveSizeForInbreeding(0.05, 10)).toBeCloseTo(1 / (2 - 2 * 0.95 ** 0.1), 9);
    expect(effectiveSizeForInbreeding(0.05, 10)).toBeLessThan(98);
    expect(inbreedingFromDrift(effectiveSizeForInbreeding(0.05, 10), 10)).toBeCloseTo(0.05, 12);
  });
});

// Tave D (1999) Inbreeding and brood stock management, FAO Fisheries Technical Paper 392. Basis: from memory, confirmed by
// independent computation. The first may be printed 149 or 150, according to rounding.
describe('effective size that keeps a rare allele', () => {
  it.each([
    [0.01, 0.95, 1, 150],
    [0.01, 0.99, 1, 230],
    [0.05, 0.99, 1, 45],
    [0.01, 0.95, 10, 263],
    [0.01, 0.99, 10, 344],
    [0.01, 0.99, 50, 424],
  ])(
    'frequency %f, probability %f, %i generations: %i',
    (frequency, probability, generations, printed) => {
      expect(Math.ceil(effectiveSizeToKeepAllele(frequency, probability, generations))).toBe(
        printed,
      );
    },
  );
});

// Gutiérrez JP et al. (2008) Genet Sel Evol 40:359-378 and (2009) J Anim Breed Genet 126:327-332. Basis: definitions from memory,
// values worked by hand for a pedigree of our own; no printed number.
describe('effective size from individual increase in inbreeding', () => {
  // 3 = 1 x 2, 4 = 1 x ?, 5 = 4 x 3, 6 = 5 x 2. By hand: F5 = F6 = 1/8; t3 = 1, t4 = 1/2, t5 = 7/4, t6 = 15/8.
  const pedigree = pedigreeFromArrays(
    Int32Array.from([-1, -1, 0, 0, 3, 4]),
    Int32Array.from([-1, -1, 1, -1, 2, 1]),
  );
  const everyone = [0, 1, 2, 3, 4, 5];

  it('with exponent 1/(t - 1)', () => {
    const result = realisedEffectiveSize(pedigree, everyone);
    const fifth = 1 - (7 / 8) ** (4 / 3);
    const sixth = 1 - (7 / 8) ** (8 / 7);
    expect(result.counted).toBe(2);
    expect(result.leftOut).toBe(4);
    expect(result.meanIncrease).toBeCloseTo((fifth + sixth) / 2, 12);
    expect(result.effectiveSize).toBeCloseTo(1 / (fifth + sixth), 12);
    const sd = Math.abs(fifth - sixth) / Math.SQRT2;
    expect(result.standardError).toBeCloseTo(
      (2 * (1 / (fifth + sixth)) ** 2 * sd) / Math.SQRT2,
      12,
    );
  });

  it('with exponent 1/t', () => {
    const { effectiveSize } = realisedEffectiveSize(pedigree, everyone, {
      exponent: 'generations',
    });
    expect(effectiveSize).toBeCloseTo(1 / (2 - (7 / 8) ** (4 / 7) - (7 / 8) ** (8 / 15)), 12);
  });
});
