import { isCalendarDate } from '@linewright/pedigree';
import { CareError } from '../care-error.js';
import { DAY, HOUR } from '../time-units.js';
import type { Instant } from './plan-shapes.js';

const formats = new Map<string, Intl.DateTimeFormat>();

const formatOf = (zone: string): Intl.DateTimeFormat => {
  let format = formats.get(zone);
  if (format === undefined) {
    try {
      format = new Intl.DateTimeFormat('en-CA', {
        timeZone: zone,
        year: 'numeric',
        month: '2-digit',
        day: '2-digit',
        hour: '2-digit',
        minute: '2-digit',
        second: '2-digit',
        hourCycle: 'h23',
      });
    } catch {
      throw new CareError(
        'CARE_OUT_OF_RANGE',
        `"${zone}" is not a time zone: give an IANA name such as Europe/Berlin, or UTC.`,
        { zone },
      );
    }
    formats.set(zone, format);
  }
  return format;
};

const partsOf = (at: Instant, zone: string): Record<string, string> =>
  Object.fromEntries(
    formatOf(zone)
      .formatToParts(at)
      .map((part) => [part.type, part.value]),
  );

/**
 * The calendar day `YYYY-MM-DD` of an instant in a time zone (IANA name).
 *
 * @throws CareError `CARE_OUT_OF_RANGE` for an unknown zone.
 * @example dayIn(Date.parse('2026-03-29T22:30:00Z'), 'Europe/Berlin') // '2026-03-30': summer time began that day
 */
export const dayIn = (at: Instant, zone: string): string => {
  const { year = '', month = '', day = '' } = partsOf(at, zone);
  return `${year.padStart(4, '0')}-${month}-${day}`;
};

/** Milliseconds that the clocks of a zone are ahead of UTC at an instant. */
const offsetAt = (at: Instant, zone: string): number => {
  const p = partsOf(at, zone);
  const shown = Date.parse(
    `${dayIn(at, zone)}T${p['hour'] ?? '00'}:${p['minute'] ?? '00'}:${p['second'] ?? '00'}Z`,
  );
  return shown - Math.floor(at / 1000) * 1000;
};

const midnightUtc = (day: string): Instant => {
  if (!isCalendarDate(day)) {
    throw new CareError('CARE_OUT_OF_RANGE', `"${day}" is not a day written YYYY-MM-DD.`, { day });
  }
  return Date.parse(`${day}T00:00:00Z`);
};

/**
 * The first instant of a calendar day in a time zone. A day with a change of clocks is 23 or 25 hours long, and where
 * midnight itself is left out the day begins at the first time that exists.
 *
 * @throws CareError `CARE_OUT_OF_RANGE` for an unknown zone or a day that is none.
 */
export const startOfDay = (day: string, zone: string): Instant => {
  const utc = midnightUtc(day);
  // The offset is looked up on both sides of the day's start: it may change in the hours between.
  const candidates = [-26, 0, 26].map((hours) => utc - offsetAt(utc + hours * HOUR, zone));
  const starts = [...new Set(candidates)].sort((a, b) => a - b);
  const first = starts.find((at) => dayIn(at, zone) === day && dayIn(at - 1, zone) < day);
  if (first !== undefined) return first;
  // Midnight does not exist on this day: look for the first minute that belongs to it.
  let [low, high] = [utc - 26 * HOUR, utc + 26 * HOUR];
  while (high - low > 1000) {
    const middle = Math.floor((low + high) / 2000) * 1000;
    if (dayIn(middle, zone) < day) low = middle;
    else high = middle;
  }
  return high;
};

/** The day so many days after another. */
export const dayAfter = (day: string, days: number): string =>
  new Date(midnightUtc(day) + days * DAY).toISOString().slice(0, 10);
