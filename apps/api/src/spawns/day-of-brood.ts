import type { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { fieldError } from '../errors/request-error.js';

/** Refuses a day yet to come, or before the spawning: nothing of a brood was counted or lost before it. */
export const expectDayOfBrood = (
  clock: Clock,
  field: string,
  what: string,
  day: string,
  spawnedOn: string | null,
): void => {
  expectDayHappened(clock, field, day, what);
  if (spawnedOn === null || day >= spawnedOn) return;
  throw fieldError({
    field,
    message: `${what} on ${day}, before the spawning on ${spawnedOn}: correct one of the two days.`,
  });
};
