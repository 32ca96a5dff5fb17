import { dayAfter, dayIn } from '@linewright/care';

const HOUR = 3_600_000;

const day = process.env['TEST_DAY'];

/**
 * Milliseconds by which this file's clock is ahead of the machine's, told to servers and pages alike: `TEST_DAY` says what time it
 * is when the file begins, as on a wall in the zone of `TZ` ("2027-02-28T23:30"). None: the clock of the machine.
 */
export const AHEAD = day === undefined ? 0 : Date.parse(day) - Date.now();
if (Number.isNaN(AHEAD))
  throw new Error(`TEST_DAY is "${day}": give a time such as 2027-02-28T23:30.`);

/** The time zone of the person that a test plays. */
export const ZONE = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** This moment of the run. */
export const now = (): number => Date.now() + AHEAD;

/** The calendar day of the person that a test plays. */
export const today = (): string => dayIn(now(), ZONE);

export const daysAgo = (days: number): string => dayAfter(today(), -days);

export const hoursAgo = (hours: number): string => new Date(now() - hours * HOUR).toISOString();

/** Milliseconds ahead of the machine's clock that make it `at` now. */
export const aheadTo = (at: string): number => Date.parse(at) - Date.now();
