import { dayAfter, daysBetween, HOUR, startOfDay } from '@linewright/care';
import { isCalendarDate } from '@linewright/pedigree';

const FIRST = '1970-01-01';

/** Whole days since 1970-01-01 for a date `YYYY-MM-DD`. */
export function dayOf(date: string): number {
  if (!isCalendarDate(date)) {
    throw new RangeError(`"${date}" is not a date written YYYY-MM-DD.`);
  }
  return daysBetween(FIRST, date);
}

export function dateOf(day: number): string {
  return dayAfter(FIRST, day);
}

/** ISO time so many hours, whole or not, after the beginning of a day in a time zone. */
export function timeOf(day: number, hour: number, zone: string): string {
  const begun = startOfDay(dateOf(day), zone);
  return new Date(begun + Math.round((hour * HOUR) / 60_000) * 60_000).toISOString();
}
