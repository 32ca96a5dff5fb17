/**
 * Water chemistry.
 *
 * - Emerson K, Russo RC, Lund RE, Thurston RV (1975) J Fish Res Board Can 32:2379-2383: pKa = 0.09018 + 2729.92/T. The paper
 *   itself was not opened; its percentages are from memory, confirmed by independent computation.
 * - Francis-Floyd R et al., Ammonia in aquatic systems, UF/IFAS extension FA-16: table of the fraction to four decimals
 *   and the worked example (read in a copy of it). Six of its 104 cells differ from the equation by up to 0.0002, and its
 *   32 degree column by 2 to 4.5 %: that column is not used.
 * - US EPA (2013) EPA 822-R-13-001; notice 78 FR 52192: 17, 1.9 and 4.8 mg/L at pH 7 and 20 degrees C (read in
 *   the notice).
 * - Canadian guideline of 0.019 mg/L as NH3, 0.0156 as N: read in public code that cites it.
 * - Dilution: arithmetic.
 */
import {
  afterChange,
  afterRepeatedChanges,
  ammoniaIn,
  ammoniaLimits,
  ammoniaNitrogen,
  ammoniumPKa,
  epaCriteria,
  limitAsNitrogen,
  massPerNitrogen,
  mix,
  mostTotalFor,
  neededChange,
  planChange,
  steadyPeak,
  unionisedAmmonia,
  unionisedShare,
} from '@linewright/care';
import { describe, expect, it } from 'vitest';

const HALF_DIGIT = 0.00005;

/** FA-16, pH down, 20 22 24 26 28 30 degrees C across. */
const extensionTable: readonly (readonly [number, readonly number[]])[] = [
  [7.0, [0.0039, 0.0046, 0.0052, 0.006, 0.0069, 0.008]],
  [7.8, [0.0244, 0.0281, 0.0322, 0.037, 0.0423, 0.0482]],
  [8.0, [0.0381, 0.0438, 0.0502, 0.0574, 0.0654, 0.0743]],
  [8.4, [0.0904, 0.1031, 0.1171, 0.1326, 0.1495, 0.1678]],
];
const cells = extensionTable.flatMap(([pH, row]) =>
  row.map((printed, i) => [pH, 20 + 2 * i, printed] as const),
);

describe('share of ammonia that is un-ionised: extension table', () => {
  it.each(cells)('pH %f, %i C: %f', (pH, celsius, printed) => {
    // 0.0001: the table itself strays by that much from its equation in some cells.
    expect(Math.abs(unionisedShare({ pH, celsius }) - printed)).toBeLessThanOrEqual(0.0001);
  });

  it('agrees to the last printed digit in most cells, and would not with the constant 2727.92', () => {
    const exact = (share: (pH: number, celsius: number) => number) =>
      cells.filter(([pH, c, printed]) => Math.abs(share(pH, c) - printed) <= HALF_DIGIT + 1e-9)
        .length;
    const misprinted = (pH: number, celsius: number) =>
      1 / (1 + 10 ** (0.09018 + 2727.92 / (celsius + 273.15) - pH));
    expect(exact((pH, celsius) => unionisedShare({ pH, celsius }))).toBeGreaterThanOrEqual(22);
    expect(exact(misprinted)).toBeLessThanOrEqual(4);
  });
});

describe('percentages of Emerson et al. (from memory, confirmed by independent computation)', () => {
  it.each([
    [10, 7, 0.186],
    [10, 8, 1.83],
    [15, 7, 0.273],
    [20, 7, 0.396],
    [20, 7.5, 1.24],
    [20, 8, 3.82],
    [20, 8.5, 11.2],
    [25, 6.5, 0.18],
    [25, 7, 0.566],
    [25, 8, 5.38],
    [25, 8.5, 15.3],
    [25, 9, 36.3],
    [30, 7, 0.799],
    [30, 8, 7.46],
    [30, 8.5, 20.3],
  ])('%i C, pH %f: %f %%', (celsius, pH, percent) => {
    // They were computed with 273.2 in place of 273.15: up to 0.5 % of the value apart.
    const ours = 100 * unionisedShare({ pH, celsius });
    expect(Math.abs(ours / percent - 1)).toBeLessThan(0.01);
    const with2732 = 100 / (1 + 10 ** (0.09018 + 2729.92 / (celsius + 273.2) - pH));
    const digit = percent < 1 ? 0.0006 : percent < 10 ? 0.006 : 0.06;
    expect(Math.abs(with2732 - percent)).toBeLessThan(digit);
  });
});

describe('worked example of FA-16', () => {
  it('1.0 mg/L of total ammonia as N at 24 C and pH 8.0 holds 0.0502 mg/L un-ionised', () => {
    const { amount } = unionisedAmmonia(ammoniaNitrogen(1, 'N'), { pH: 8, celsius: 24 });
    expect(Math.abs(amount - 0.0502)).toBeLessThanOrEqual(HALF_DIGIT);
    // A copy in circulation prints the factor ten times too large.
    expect(Math.abs(amount - 0.502)).toBeGreaterThan(0.4);
  });
  it('pKa at 25 C is 9.25 (usual textbook value, 9.25)', () => {
    expect(Math.abs(ammoniumPKa(25) - 9.25)).toBeLessThanOrEqual(0.005);
  });
});

describe('units', () => {
  it('N to NH3 is 1.2159 and N to NH4 is 1.2878 (molar masses, IUPAC)', () => {
    expect(Math.abs(massPerNitrogen.NH3 - 1.2159)).toBeLessThanOrEqual(HALF_DIGIT);
    expect(Math.abs(massPerNitrogen.NH4 - 1.2878)).toBeLessThanOrEqual(0.0001);
  });
  it('the same figure is another reading in another unit', () => {
    expect(ammoniaNitrogen(1, 'NH4')).toBeCloseTo(0.7765, 4);
    expect(ammoniaIn(ammoniaNitrogen(1, 'NH3'), 'NH4')).toBeCloseTo(1.0592, 4);
  });
  it('the Canadian guideline of 0.019 as NH3 is 0.0156 as N', () => {
    const limit = ammoniaLimits.find((one) => one.id === 'canada-chronic')!;
    expect(Math.abs(limitAsNitrogen(limit) - 0.0156)).toBeLessThanOrEqual(HALF_DIGIT);
  });
  it.each([
    [6.5, 9.06],
    [7, 2.88],
    [7.5, 0.92],
    [8, 0.31],
    [8.5, 0.11],
  ])(
    'at 28 C and pH %f, %f mg/L of total ammonia holds 0.02 un-ionised (both as N)',
    (pH, total) => {
      const most = mostTotalFor(ammoniaNitrogen(0.02, 'N'), { pH, celsius: 28 });
      expect(Math.abs(most - total)).toBeLessThanOrEqual(0.005);
    },
  );
});

describe('criteria of the US EPA, 2013', () => {
  it('pH 7, 20 C: 17 for an hour, 1.9 over 30 days, 4.8 over 4 of them', () => {
    const { acute, chronic, fourDays } = epaCriteria({ pH: 7, celsius: 20 });
    expect(Math.abs(acute - 17)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(chronic - 1.9)).toBeLessThanOrEqual(0.05);
    // 2.5 times the rounded 1.9 is 4.75, printed 4.8; times the unrounded 1.89 it is 4.7.
    expect(Math.abs(fourDays - 4.8)).toBeLessThanOrEqual(0.1);
  });
  it.each([
    [6.5, 26, 13.79, 1.45],
    [7, 28, 8.64, 1.13],
    [7.5, 28, 4.76, 0.83],
    [8, 26, 2.37, 0.53],
    [8.5, 28, 0.77, 0.21],
  ])('pH %f, %i C: %f and %f (independent computation)', (pH, celsius, acute, chronic) => {
    const criteria = epaCriteria({ pH, celsius });
    expect(Math.abs(criteria.acute - acute)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(criteria.chronic - chronic)).toBeLessThanOrEqual(0.005);
  });
});

describe('change of water', () => {
  it.each([
    [1.0, 0.5, 0, 0.5],
    [0.8, 0.75, 0, 0.2],
    [0.8, 0.8571, 0.1, 0.2],
  ])('%f changed by %f with %f: %f', (before, share, source, after) => {
    expect(Math.abs(afterChange(before, share, source) - after)).toBeLessThanOrEqual(HALF_DIGIT);
  });
  it('twice 30 % of 1.0 leaves 0.49', () => {
    expect(afterRepeatedChanges(1, 0.3, 0, 2)).toBeCloseTo(0.49, 12);
  });
  it('needed: 0.75, 0.8571 with a source of its own, and never where the source is dirtier', () => {
    expect(neededChange(0.8, 0.2, 0)).toEqual({ possible: true, share: expect.closeTo(0.75, 12) });
    expect(neededChange(0.8, 0.2, 0.1)).toEqual({
      possible: true,
      share: expect.closeTo(0.8571, 4),
    });
    expect(neededChange(0.2, 0.1, 0.3)).toEqual({
      possible: false,
      because: 'SOURCE_NOT_BELOW_TARGET',
    });
  });
  it('settles at g/p before and g(1-p)/p after', () => {
    const { before, after } = steadyPeak(0.1, 0.25, 0);
    expect(before).toBeCloseTo(0.4, 12);
    expect(after).toBeCloseTo(0.3, 12);
    let tank = 0;
    for (let day = 0; day < 200; day += 1) tank = afterChange(tank + 0.1, 0.25, 0);
    expect(tank).toBeCloseTo(after, 9);
  });
  it('a pH higher by 0.3 nearly doubles the un-ionised share, so the mix is judged anew', () => {
    const low = unionisedShare({ pH: 7, celsius: 27 });
    expect(unionisedShare({ pH: 7.3, celsius: 27 }) / low).toBeGreaterThan(1.9);
    const tank = { total: ammoniaNitrogen(2, 'N'), pH: 7, celsius: 27 };
    const tap = { total: ammoniaNitrogen(0, 'N'), pH: 7.3, celsius: 27 };
    const limit = ammoniaNitrogen(0.007, 'N');
    const plan = planChange(tank, tap, limit);
    expect(plan.warnings).toContain('PH_RISES');
    expect(plan.steps!.after.at(-1)!.unionisedAtMost).toBeLessThanOrEqual(limit);
    const onPaper = neededChange(tank.total * low, limit, 0);
    const diluted = onPaper.possible ? onPaper.share : 0;
    expect(diluted).toBeLessThan(1 - (1 - plan.steps!.each) ** plan.steps!.times);
    // What dilution alone asks for would leave the mix over the limit.
    expect(mix(tank, tap, diluted).unionisedAtMost).toBeGreaterThan(limit);
  });
});
