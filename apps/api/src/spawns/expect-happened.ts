import { DAY, HOUR } from '@linewright/care';
import { fieldError } from '../errors/request-error.js';

const EARLIEST_YEAR = 1900;

/** Refuses a time that has not come (clocks of devices differ a little, never by hours) or whose year lost a digit. */
export const expectHappened = (at: Date): void => {
  if (at.getUTCFullYear() < EARLIEST_YEAR) {
    throw fieldError({
      field: 'at',
      message: `${at.toISOString()} is no time of ours: give the year with all four digits.`,
    });
  }
  if (at.getTime() <= Date.now() + HOUR) return;
  throw fieldError({
    field: 'at',
    message: `${at.toISOString()} lies in the future: record it when it has happened, and see that clock and time zone of this device are right.`,
  });
};

/** Refuses a day yet to come, or before the spawning: nothing of a brood was counted or lost before it. */
export const expectDayOfBrood = (
  field: string,
  what: string,
  day: string,
  spawnedOn: string | null,
): void => {
  // Somewhere it is tomorrow already.
  if (day > new Date(Date.now() + DAY).toISOString().slice(0, 10)) {
    throw fieldError({
      field,
      message: `${what} on ${day}, which is yet to come: give the day it happened.`,
    });
  }
  if (spawnedOn === null || day >= spawnedOn) return;
  throw fieldError({
    field,
    message: `${what} on ${day}, before the spawning on ${spawnedOn}: correct one of the two days.`,
  });
};
