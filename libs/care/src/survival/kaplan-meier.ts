import { CareError } from '../care-error.js';

/** What happened on one day to the fish under watch. */
export interface DayOfLives {
  /** Days since the start; 0 or more. */
  readonly day: number;
  readonly deaths: number;
  /** Left alive (placed, moved, end of watching): counted as at risk up to this day, deaths first. */
  readonly withdrawn: number;
}

export interface SurvivalStep {
  readonly day: number;
  /** Alive and under watch just before the day. */
  readonly atRisk: number;
  readonly deaths: number;
  readonly withdrawn: number;
  /** Estimated share alive after the day, 0..1. */
  readonly survival: number;
  /** Greenwood's variance of `survival`. */
  readonly variance: number;
  /** Log-log interval; `null` where it does not exist (nobody died yet, or nobody is left). */
  readonly interval: { readonly low: number; readonly high: number } | null;
}

/** Two-sided normal deviate of the confidence asked for; 95 % is 1.959964. */
const DEVIATES: Readonly<Record<string, number>> = {
  '0.8': 1.2815515655446004,
  '0.9': 1.6448536269514722,
  '0.95': 1.959963984540054,
  '0.99': 2.5758293035489004,
};

export type SurvivalConfidence = 0.8 | 0.9 | 0.95 | 0.99;

/**
 * The product-limit estimate of survival for counts of fish with days.
 *
 * S = product over days of (n - d) / n, with d deaths among the n at risk (Kaplan EL, Meier P (1958) J Am Stat Assoc
 * 53:457-481). Variance S^2 * sum d / (n (n - d)) (Greenwood 1926). Interval S^exp(+-z s / ln S), s^2 the same sum: the
 * log-log transformation of Kalbfleisch and Prentice, which stays within 0..1.
 *
 * Assumes that withdrawal tells nothing about what would have become of the fish, and that fish die independently. Fry
 * of one tank do not, so that the interval is too narrow for comparing spawns: see `bandOf`.
 *
 * Days need not be in order; those of the same day are added up. Work grows with days * log days.
 *
 * @throws CareError CARE_BAD_COUNT for a count that is not a whole number of 0 or more, or for more fish leaving than
 * there are.
 * @example kaplanMeier(4, [{ day: 3, deaths: 1, withdrawn: 0 }])[0]?.survival // 0.75
 */
export function kaplanMeier(
  started: number,
  days: readonly DayOfLives[],
  confidence: SurvivalConfidence = 0.95,
): SurvivalStep[] {
  expectWhole('The number at the start', started);
  const deviate = DEVIATES[String(confidence)];
  if (deviate === undefined) {
    throw new CareError(
      'CARE_OUT_OF_RANGE',
      `The confidence is ${confidence}: give 0.8, 0.9, 0.95 or 0.99.`,
    );
  }
  const steps: SurvivalStep[] = [];
  let atRisk = started;
  let survival = 1;
  let sum = 0;
  for (const { day, deaths, withdrawn } of addedUp(days)) {
    if (deaths + withdrawn > atRisk) {
      throw new CareError(
        'CARE_BAD_COUNT',
        `${deaths + withdrawn} fish leave on day ${day}, but only ${atRisk} are there: correct a count or a loss.`,
        { day, atRisk, deaths, withdrawn },
      );
    }
    survival = deaths === 0 ? survival : survival * ((atRisk - deaths) / atRisk);
    // With the last fish dead the term is without end, and the estimate is 0 with no spread.
    sum += deaths === 0 || deaths === atRisk ? 0 : deaths / (atRisk * (atRisk - deaths));
    steps.push({
      day,
      atRisk,
      deaths,
      withdrawn,
      survival,
      variance: survival ** 2 * sum,
      interval: logLogInterval(survival, sum, deviate),
    });
    atRisk -= deaths + withdrawn;
  }
  return steps;
}

function logLogInterval(
  survival: number,
  sum: number,
  deviate: number,
): { low: number; high: number } | null {
  if (survival <= 0 || survival >= 1) return null;
  const spread = (deviate * Math.sqrt(sum)) / Math.log(survival);
  const ends = [survival ** Math.exp(spread), survival ** Math.exp(-spread)] as const;
  return { low: Math.min(...ends), high: Math.max(...ends) };
}

function addedUp(days: readonly DayOfLives[]): DayOfLives[] {
  const byDay = new Map<number, { deaths: number; withdrawn: number }>();
  for (const { day, deaths, withdrawn } of days) {
    expectWhole('A day', day);
    expectWhole('A number of deaths', deaths);
    expectWhole('A number of fish withdrawn', withdrawn);
    const held = byDay.get(day) ?? { deaths: 0, withdrawn: 0 };
    byDay.set(day, { deaths: held.deaths + deaths, withdrawn: held.withdrawn + withdrawn });
  }
  return [...byDay]
    .sort(([a], [b]) => a - b)
    .map(([day, { deaths, withdrawn }]) => ({ day, deaths, withdrawn }));
}

function expectWhole(what: string, value: number): void {
  if (Number.isInteger(value) && value >= 0) return;
  throw new CareError('CARE_BAD_COUNT', `${what} is ${value}: give a whole number of 0 or more.`, {
    value,
  });
}

/**
 * Estimated survival on a day; 1 before the first step.
 *
 * @example survivalOn(steps, 14)
 */
export function survivalOn(steps: readonly SurvivalStep[], day: number): number {
  let at = 1;
  for (const step of steps) {
    if (step.day > day) break;
    at = step.survival;
  }
  return at;
}
