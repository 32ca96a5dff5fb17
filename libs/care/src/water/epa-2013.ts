import type { AmmoniaNitrogen } from './ammonia-units.js';
import { type WaterState, unionisedShare } from './unionised.js';

/**
 * Criteria of the US EPA for total ammonia in fresh water (mg/L as N), shown as a reference only: they were made for
 * wild waters, the acute one with salmonids present, and the chronic one follows from the most sensitive mussels. They
 * are no limits for fry in a tank.
 *
 * Source: US EPA (2013) Aquatic life ambient water quality criteria for ammonia - freshwater, EPA 822-R-13-001; notice
 * 78 FR 52192: at pH 7 and 20 degrees C 17 mg/L for one hour and 1.9 mg/L over 30 days. Some code in circulation has
 * 10 - max(T, 7) where the chronic formula needs 20 - max(T, 7), which gives 0.99 in place of 1.9.
 */
export interface EpaCriteria {
  /** One-hour average, not to be passed more than once in three years. */
  readonly acute: AmmoniaNitrogen;
  /** Thirty-day average. */
  readonly chronic: AmmoniaNitrogen;
  /** Highest four-day average within the 30 days: 2.5 times the chronic criterion. */
  readonly fourDays: AmmoniaNitrogen;
}

/**
 * @throws CareError for a pH or temperature out of range.
 * @example epaCriteria({ pH: 7, celsius: 20 }) // acute 16.8, chronic 1.89, four days 4.7
 */
export function epaCriteria({ pH, celsius }: WaterState): EpaCriteria {
  // Refuses values out of range with the same words as the rest.
  unionisedShare({ pH, celsius });
  const shape = (middle: number, low: number, high: number) =>
    low / (1 + 10 ** (middle - pH)) + high / (1 + 10 ** (pH - middle));
  const salmonids = shape(7.204, 0.275, 39);
  const others = 0.7249 * shape(7.204, 0.0114, 1.6181) * 23.12 * 10 ** (0.036 * (20 - celsius));
  const chronic =
    0.8876 * shape(7.688, 0.0278, 1.1994) * 2.126 * 10 ** (0.028 * (20 - Math.max(celsius, 7)));
  return {
    acute: Math.min(salmonids, others) as AmmoniaNitrogen,
    chronic: chronic as AmmoniaNitrogen,
    fourDays: (2.5 * chronic) as AmmoniaNitrogen,
  };
}
