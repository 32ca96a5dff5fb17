import { fieldError } from '../errors/request-error.js';
import type { Clock } from './clock.js';

const EARLIEST_YEAR = 1900;

/** Refuses a day yet to come where whoever sends it is. */
export const expectDayHappened = (clock: Clock, field: string, day: string): void => {
  if (day <= clock.latestDay()) return;
  throw fieldError({
    field,
    message: `${day} is in the future by the clock of the server: give the day it happened, and see that clock and time zone of the device are right.`,
  });
};

/** Refuses a time that has not come (clocks of devices differ a little, never by hours) or whose year lost a digit. */
export const expectTimeHappened = (clock: Clock, at: Date): void => {
  if (at.getUTCFullYear() < EARLIEST_YEAR) {
    throw fieldError({
      field: 'at',
      message: `${at.toISOString()} is not a possible time: give the year with all four digits.`,
    });
  }
  if (at <= clock.latestTime()) return;
  throw fieldError({
    field: 'at',
    message: `${at.toISOString()} lies in the future: record it when it has happened, and see that clock and time zone of this device are right.`,
  });
};
