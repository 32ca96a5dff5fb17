import { fieldError } from '../errors/request-error.js';
import type { Clock } from './clock.js';

/** Of an earlier year only the last digits were typed. */
const EARLIEST_YEAR = 1900;
const EARLIEST_DAY = `${EARLIEST_YEAR}-01-01`;

/** Why nothing can have happened then. */
export type TimeSlip = 'too-early' | 'to-come';

/** What is wrong with a time and what to give instead, after "… is" or "… on …, which is". */
export const timeSlipText: Readonly<Record<TimeSlip, string>> = {
  'too-early': `before ${EARLIEST_YEAR}: give the year with all four digits.`,
  'to-come':
    'in the future: give the day (and time) it happened, and see that clock and time zone of the device are right.',
};

/** What is wrong with the day of something that happened; `null` when it may be recorded. @param latest {@link Clock.latestDay} */
export const daySlip = (day: string, latest: string): TimeSlip | null => {
  if (day < EARLIEST_DAY) return 'too-early';
  return day > latest ? 'to-come' : null;
};

/** The same for a time. @param latest {@link Clock.latestTime} */
export const timeSlip = (at: Date, latest: Date): TimeSlip | null => {
  if (at.getUTCFullYear() < EARLIEST_YEAR) return 'too-early';
  return at > latest ? 'to-come' : null;
};

/** Refuses a day yet to come where whoever sends it is, and one whose year lost digits; `what` happened then, in words. */
export const expectDayHappened = (clock: Clock, field: string, day: string, what = ''): void => {
  const slip = daySlip(day, clock.latestDay());
  if (slip === null) return;
  const is = what === '' ? `${day} is` : `${what} on ${day}, which is`;
  throw fieldError({ field, message: `${is} ${timeSlipText[slip]}` });
};

/** The same for a time: clocks of devices differ a little, never by hours. */
export const expectTimeHappened = (clock: Clock, at: Date, field = 'at'): void => {
  const slip = timeSlip(at, clock.latestTime());
  if (slip === null) return;
  throw fieldError({ field, message: `${at.toISOString()} is ${timeSlipText[slip]}` });
};
