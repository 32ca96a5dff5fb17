/**
 * Survival of counts with dates.
 *
 * - Freireich EJ et al. (1963) Blood 21:699-716: weeks of remission of 21 children on 6-mercaptopurine, as printed in many
 *   textbooks (Kleinbaum and Klein, Survival Analysis; Kalbfleisch and Prentice). Data, estimates, standard errors and
 *   log-log limits from memory, confirmed by independent computation below.
 * - Miller RG (1981) Survival Analysis: weeks of remission of 11 patients with maintained chemotherapy. From memory,
 *   confirmed by independent computation.
 * - Without anyone withdrawn the estimate is the plain share alive, and Greenwood's variance the binomial p(1-p)/n
 *   (algebra).
 */
import { type DayOfLives, kaplanMeier } from '@linewright/care';
import { describe, expect, it } from 'vitest';

const days = (deaths: readonly number[], withdrawn: readonly number[]): DayOfLives[] => [
  ...deaths.map((day) => ({ day, deaths: 1, withdrawn: 0 })),
  ...withdrawn.map((day) => ({ day, deaths: 0, withdrawn: 1 })),
];

/** The definition written out a second way: over single lives, with the estimate and its variance as products and sums. */
function independently(deaths: readonly number[], withdrawn: readonly number[], at: number) {
  let survival = 1;
  let sum = 0;
  for (const t of [...new Set(deaths)].filter((time) => time <= at)) {
    const d = deaths.filter((time) => time === t).length;
    const n = [...deaths, ...withdrawn].filter((time) => time >= t).length;
    survival *= 1 - d / n;
    sum += d / (n * (n - d));
  }
  const reach = (1.959963984540054 * Math.sqrt(sum)) / Math.abs(Math.log(survival));
  return {
    survival,
    error: survival * Math.sqrt(sum),
    low: Math.exp(-Math.exp(Math.log(-Math.log(survival)) + reach)),
    high: Math.exp(-Math.exp(Math.log(-Math.log(survival)) - reach)),
  };
}

const remission = {
  deaths: [6, 6, 6, 7, 10, 13, 16, 22, 23],
  withdrawn: [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35],
};

describe('remission on 6-mercaptopurine', () => {
  const steps = kaplanMeier(21, days(remission.deaths, remission.withdrawn));
  it.each([
    // week, at risk, S, standard error, lower, upper
    [6, 21, 0.8571, 0.0764, 0.6197, 0.9516],
    [7, 17, 0.8067, 0.0869, 0.5631, 0.9228],
    [10, 15, 0.7529, 0.0963, 0.5032, 0.8894],
    [13, 12, 0.6902, 0.1068, 0.4316, 0.8491],
    [16, 11, 0.6275, 0.1141, 0.3675, 0.8049],
    [22, 7, 0.5378, 0.1282, 0.2678, 0.7468],
    [23, 6, 0.4482, 0.1346, 0.1881, 0.6801],
  ])('week %i: %i at risk, %f (%f), %f to %f', (week, atRisk, survival, error, low, high) => {
    const step = steps.find((one) => one.day === week)!;
    const digit = 0.00005 + 1e-9;
    expect(step.atRisk).toBe(atRisk);
    expect(Math.abs(step.survival - survival)).toBeLessThanOrEqual(digit);
    expect(Math.abs(Math.sqrt(step.variance) - error)).toBeLessThanOrEqual(digit);
    expect(Math.abs(step.interval!.low - low)).toBeLessThanOrEqual(digit);
    expect(Math.abs(step.interval!.high - high)).toBeLessThanOrEqual(digit);
    const second = independently(remission.deaths, remission.withdrawn, week);
    expect(step.survival).toBeCloseTo(second.survival, 12);
    expect(Math.sqrt(step.variance)).toBeCloseTo(second.error, 12);
    expect(step.interval!.low).toBeCloseTo(second.low, 12);
    expect(step.interval!.high).toBeCloseTo(second.high, 12);
  });
});

describe('maintained remission', () => {
  const deaths = [9, 13, 18, 23, 31, 34, 48];
  const withdrawn = [13, 28, 45, 161];
  const steps = kaplanMeier(11, days(deaths, withdrawn));
  it.each([
    [9, 11, 0.909, 0.0867],
    [13, 10, 0.818, 0.1163],
    [18, 8, 0.716, 0.1397],
    [23, 7, 0.614, 0.1526],
    [31, 5, 0.491, 0.1642],
    [34, 4, 0.368, 0.1627],
    [48, 2, 0.184, 0.1535],
  ])('week %i: %i at risk, %f (%f)', (week, atRisk, survival, error) => {
    const step = steps.find((one) => one.day === week)!;
    expect(step.atRisk).toBe(atRisk);
    expect(Math.abs(step.survival - survival)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(Math.sqrt(step.variance) - error)).toBeLessThanOrEqual(0.00005 + 1e-9);
    const second = independently(deaths, withdrawn, week);
    expect(step.survival).toBeCloseTo(second.survival, 12);
    expect(Math.sqrt(step.variance)).toBeCloseTo(second.error, 12);
  });
});

describe('without withdrawals', () => {
  it('is the share alive with the binomial variance', () => {
    const steps = kaplanMeier(150, [
      { day: 2, deaths: 30, withdrawn: 0 },
      { day: 5, deaths: 12, withdrawn: 0 },
      { day: 16, deaths: 40, withdrawn: 0 },
    ]);
    [120, 108, 68].forEach((alive, i) => {
      const share = alive / 150;
      expect(steps[i]!.survival).toBeCloseTo(share, 12);
      expect(steps[i]!.variance).toBeCloseTo((share * (1 - share)) / 150, 12);
    });
  });
});
