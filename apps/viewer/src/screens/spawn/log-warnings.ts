import {
  daysBetween,
  impossibleIntervals,
  impossibleIntervalText,
  outOfOrder,
} from '@linewright/care';
import type { LogRecord } from '../../api/care.js';
import { happenedText } from '../../wording/care-words.js';
import { dayOf } from '../../wording/figures.js';

interface DaysOfSpawn {
  readonly spawnedOn: string | null;
  readonly hatchDate: string | null;
}

/** What in a log contradicts itself, or the days that stand on the spawn, each with its remedy. */
export function logWarnings(
  { spawnedOn, hatchDate }: DaysOfSpawn,
  log: readonly LogRecord[],
): string[] {
  const records = log.map((record) => ({
    ...record,
    at: Date.parse(record.at),
    action: record.action === 'SKIPPED' ? ('skipped' as const) : ('done' as const),
  }));
  const swapped = outOfOrder(records);
  const order = swapped.map(({ earlier, later }) => {
    const [before, after] = [later, earlier].map(
      ({ title, at, dayOnly }) =>
        `“${title}” (${happenedText({ at: new Date(at).toISOString(), dayOnly })})`,
    );
    return `${before ?? ''} is dated before ${after ?? ''}: correct the time of one of the two.`;
  });
  // What stands the wrong way round is told once, with both times.
  const told = new Set(swapped.flatMap(({ earlier, later }) => [earlier, later]));
  const apart = impossibleIntervals(records)
    .filter(({ second }) => !told.has(second))
    .map(impossibleIntervalText);
  const days = [
    { word: 'Spawned', step: 'spawned', day: spawnedOn },
    { word: 'Hatched', step: 'hatched', day: hatchDate },
  ].flatMap(({ word, step, day }) => {
    const first = records.find((record) => record.step === step && record.action === 'done');
    if (day === null || first === undefined || first.dayOnly) return [];
    const logged = dayOf(first.at);
    // A day more or less: the day may have been read in another time zone, or a night counted to its evening.
    if (Math.abs(daysBetween(day, logged)) <= 1) return [];
    return `${word} on ${day} as on the spawn, but on ${logged} in the log: the calendar follows the log. Correct one of the two.`;
  });
  return [...order, ...apart, ...days];
}
