import { expectBetween } from '../expect-number.js';

/** Hours a reading of a stocked, fed vessel is leaned on: common practice, no source; the person's to change. */
export const usualTrustHours = 24;

export interface Trust {
  /** `fresh` in the first half of the time, `ageing` in the second, `old` after it. */
  readonly state: 'fresh' | 'ageing' | 'old';
  readonly hoursLeft: number;
}

/**
 * How far a reading can still be leaned on. A rule of practice and no measurement: ammonia rises with every feed, and
 * pH and temperature swing within a day.
 *
 * @throws CareError CARE_OUT_OF_RANGE for a time of trust outside 1 hour to 30 days.
 * @example trustOf(6, 24) // { state: 'fresh', hoursLeft: 18 }
 */
export function trustOf(ageHours: number, trustHours: number = usualTrustHours): Trust {
  expectBetween('The hours a reading is trusted', trustHours, 1, 720);
  expectBetween('The age of the reading (hours)', ageHours, -1_000_000, 1_000_000);
  const hoursLeft = Math.max(0, trustHours - Math.max(0, ageHours));
  if (hoursLeft === 0) return { state: 'old', hoursLeft };
  return { state: hoursLeft >= trustHours / 2 ? 'fresh' : 'ageing', hoursLeft };
}
