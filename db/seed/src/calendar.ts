import { isCalendarDate, startOfDay } from '@linewright/care';

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;

/** Whole days since 1970-01-01 for a date `YYYY-MM-DD`. */
export function dayOf(date: string): number {
  if (!isCalendarDate(date)) {
    throw new RangeError(`"${date}" is not a date written YYYY-MM-DD.`);
  }
  return Date.parse(`${date}T00:00:00Z`) / DAY_MS;
}

export function dateOf(day: number): string {
  return new Date(day * DAY_MS).toISOString().slice(0, 10);
}

/** ISO time so many hours, whole or not, after the beginning of a day in a time zone. */
export function timeOf(day: number, hour: number, zone: string): string {
  const begun = startOfDay(dateOf(day), zone);
  return new Date(begun + Math.round((hour * HOUR_MS) / 60_000) * 60_000).toISOString();
}
