import {
  effectiveSizeForInbreeding,
  effectiveSizeFromFamilies,
  effectiveSizeFromSexes,
  effectiveSizeToKeepAllele,
  harmonicMeanEffectiveSize,
  inbreedingByGeneration,
  inbreedingCoefficients,
  inbreedingFromDrift,
  inbreedingRate,
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
    expect(effectiveSizeFromFamilies([2, 2, 2, 2])).toBeCloseTo(7, 12);
    const uneven = Array.from({ length: 400 }, (_, k) => [0, 2, 2, 4][k % 4]!);
    expect(Math.abs(effectiveSizeFromFamilies(uneven) - 400)).toBeLessThanOrEqual(0.5);
  });

  // What the formula stands for: 1 / the chance that two different genes of the young came from one parent. Basis: counted here,
  // pair by pair, without the formula.
  it.each([
    [[2, 2, 2, 2]],
    [[0, 4, 0, 4]],
    [[1, 5, 0, 2, 2]],
    [[7, 1]],
    [[3, 3, 3, 0, 0, 1, 12, 2]],
  ])('is one over the chance of a common parent, families %j', (families) => {
    const parents = families.flatMap((size, parent) => new Array<number>(size).fill(parent));
    let pairs = 0;
    let alike = 0;
    parents.forEach((one, i) =>
      parents.slice(i + 1).forEach((other) => {
        pairs++;
        if (one === other) alike++;
      }),
    );
    expect(effectiveSizeFromFamilies(families)).toBeCloseTo(pairs / alike, 9);
  });
});

// Falconer DS & Mackay TFC (1996), eq. 3.12: F(t) = 1 - (1 - 1/2Ne)^t. Basis: computed reference, no printed number.
describe('inbreeding from drift', () => {
  it('compounds; handbooks for fish farmers add up', () => {
    // F of 5 percent in 10 generations: 100 by adding up (t / 2F), 97.7 when compounded (worked by hand with logarithms).
    expect(Math.abs(effectiveSizeForInbreeding(0.05, 10) - 97.73)).toBeLessThanOrEqual(0.005);
    expect(inbreedingFromDrift(effectiveSizeForInbreeding(0.05, 10), 10)).toBeCloseTo(0.05, 12);
  });

  // The model behind it, played through whole: two fish that are both sexes at once, every young with each gene from either at
  // random, selfing included. Basis: the mean F over all 256 pedigrees of two generations, each F from the pedigree alone.
  it('is the mean F of all pedigrees that chance can make of two fish', () => {
    const choices = [0, 1].flatMap((sire) => [0, 1].map((dam) => [sire, dam] as const));
    const sum = [0, 0];
    let count = 0;
    for (const a of choices)
      for (const b of choices)
        for (const c of choices)
          for (const d of choices) {
            const young = pedigreeFromArrays(
              Int32Array.of(-1, -1, a[0], b[0], 2 + c[0], 2 + d[0]),
              Int32Array.of(-1, -1, a[1], b[1], 2 + c[1], 2 + d[1]),
            );
            const f = inbreedingCoefficients(young);
            sum[0]! += (f[2]! + f[3]!) / 2;
            sum[1]! += (f[4]! + f[5]!) / 2;
            count++;
          }
    expect(count).toBe(256);
    expect(inbreedingFromDrift(2, 1)).toBeCloseTo(sum[0]! / count, 12);
    expect(inbreedingFromDrift(2, 2)).toBeCloseTo(sum[1]! / count, 12);
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
    expect(result.counted).toBe(2);
    expect(result.leftOut).toBe(4);
    // Worked out apart, to thirty digits: dF 0.1630926 and 0.1415332.
    expect(result.meanIncrease).toBeCloseTo(0.152312918517729, 12);
    expect(result.effectiveSize).toBeCloseTo(3.28271564136432, 12);
    expect(result.standardError).toBeCloseTo(0.232328643540145, 12);
  });

  it('with exponent 1/t', () => {
    const { effectiveSize } = realisedEffectiveSize(pedigree, everyone, {
      exponent: 'generations',
    });
    expect(effectiveSize).toBeCloseTo(7.03209389046023, 12);
  });
});

// Wright S (1921) Genetics 6:124-143, as tabled in Falconer DS & Mackay TFC (1996) ch. 5: selfing halves what is left in each
// generation; with full sibs 0.191 of it is lost in the long run, so that N_e = 1 / (2 x 0.191) = 2.62. Basis: from memory.
describe('effective size under one system of mating without end', () => {
  const sibLine = (generations: number) => {
    const sire = Int32Array.from({ length: 2 * generations + 2 }, (_, i) =>
      i < 2 ? -1 : 2 * (i >> 1) - 2,
    );
    return pedigreeFromArrays(
      sire,
      sire.map((parent) => (parent < 0 ? -1 : parent + 1)),
    );
  };

  it('is 1 with selfing', () => {
    const parent = Int32Array.from({ length: 30 }, (_, i) => i - 1);
    const { effectiveSize } = realisedEffectiveSize(pedigreeFromArrays(parent, parent), [29], {
      exponent: 'generations',
    });
    expect(effectiveSize).toBeCloseTo(1, 9);
  });

  it.each([30, 100, 200, 1000])(
    'is 2.62 with full sibs, and does not drift: %i generations',
    (generations) => {
      const line = sibLine(generations);
      const last = [2 * generations, 2 * generations + 1];
      const { effectiveSize, counted } = realisedEffectiveSize(line, last);
      expect(counted).toBe(2);
      expect(Math.abs(effectiveSize! - 2.62)).toBeLessThanOrEqual(generations < 100 ? 0.04 : 0.02);
      const rate = inbreedingRate(inbreedingByGeneration(line));
      expect(Math.abs(rate!.rate - 0.191)).toBeLessThanOrEqual(generations < 100 ? 0.002 : 0.0005);
      expect(Math.abs(rate!.effectiveSize! - 2.62)).toBeLessThanOrEqual(0.025);
    },
  );

  it('a fish all but wholly inbred in an ancestry too large to work it out in is left out, not guessed at', () => {
    const line = sibLine(2100);
    const last = 2 * 2100 + 1;
    expect(inbreedingCoefficients(line)[last]).toBeGreaterThan(1 - 1e-12);
    expect(realisedEffectiveSize(line, [last])).toMatchObject({ effectiveSize: null, leftOut: 1 });
    expect(inbreedingRate(inbreedingByGeneration(line))).toBeNull();
  });
});
