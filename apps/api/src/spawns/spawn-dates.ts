import { DAY, daysAsEntries, impossibleIntervals, impossibleIntervalText } from '@linewright/care';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError } from '../errors/request-error.js';

/** Refuses a day yet to come, and a hatch before the spawning or longer after it than any brood takes. */
export const expectSpawnDates = (spawnedOn: string | null, hatchDate: string | null): void => {
  // Somewhere it is tomorrow already.
  const latest = new Date(Date.now() + DAY).toISOString().slice(0, 10);
  const checks = new FieldChecks();
  for (const [field, day] of Object.entries({ spawnedOn, hatchDate })) {
    if (day === null || day <= latest) continue;
    checks.refuse(
      field,
      `${day} is yet to come: give the day it happened, or leave it blank until then.`,
    );
  }
  checks.expectNone();
  if (spawnedOn === null || hatchDate === null) return;
  if (hatchDate < spawnedOn) {
    throw fieldError({
      field: 'hatchDate',
      message: `Hatched on ${hatchDate}, before the spawning on ${spawnedOn}: correct one of the dates.`,
    });
  }
  const [impossible] = impossibleIntervals(daysAsEntries({ spawnedOn, hatchDate }));
  if (impossible === undefined) return;
  throw fieldError({ field: 'hatchDate', message: impossibleIntervalText(impossible) });
};
