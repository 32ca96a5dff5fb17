import { isCalendarDate } from '@linewright/pedigree';
import { MatingError } from './mating-error.js';

const DAY_IN_MILLISECONDS = 86_400_000;

/**
 * Days since 1970-01-01 of an ISO date (`2026-03-14`; a time of day after it is ignored).
 *
 * Throws `MatingError` with code `MATING_BAD_DATE` for anything else, including a day the calendar does not have.
 */
export function dayNumber(date: string): number {
  const day = date.split('T', 1)[0]!;
  if (isCalendarDate(day)) return Date.parse(`${day}T00:00:00Z`) / DAY_IN_MILLISECONDS;
  throw new MatingError(
    'MATING_BAD_DATE',
    date,
    `"${date}" is not a date. Write year-month-day, as in 2026-03-14.`,
  );
}

/** Whole days from `from` to `to`, both ISO dates; negative when `to` is earlier. */
export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}

/** The ISO date `days` after `date`. */
export function addDays(date: string, days: number): string {
  return new Date((dayNumber(date) + days) * DAY_IN_MILLISECONDS).toISOString().slice(0, 10);
}
