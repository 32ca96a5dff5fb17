import { daysAsRecords, impossibleIntervals, impossibleIntervalText } from '@linewright/care';
import type { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError } from '../errors/request-error.js';

/** Refuses a day yet to come, and a hatch before the spawning or longer after it than any brood takes. */
export const expectSpawnDates = (
  clock: Clock,
  spawnedOn: string | null,
  hatchDate: string | null,
): void => {
  const checks = new FieldChecks();
  for (const [field, day] of Object.entries({ spawnedOn, hatchDate })) {
    if (day !== null) checks.keepNow(() => expectDayHappened(clock, field, day));
  }
  checks.expectNone();
  if (spawnedOn === null || hatchDate === null) return;
  if (hatchDate < spawnedOn) {
    throw fieldError({
      field: 'hatchDate',
      message: `Hatched on ${hatchDate}, before the spawning on ${spawnedOn}: correct one of the dates.`,
    });
  }
  const [impossible] = impossibleIntervals(daysAsRecords({ spawnedOn, hatchDate }));
  if (impossible === undefined) return;
  throw fieldError({ field: 'hatchDate', message: impossibleIntervalText(impossible) });
};
