import {
  type CareRecord,
  daysAsRecords,
  impossibleIntervals,
  impossibleIntervalText,
} from '@linewright/care';
import { type EntityManager } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import type { SpawnEventRow } from '../stock/rows/spawn-log.entity.js';
import { eventsOf } from '../stock/spawn-rows.js';

/**
 * Refuses an event nearer to another of its brood, or further from it, than any brood's: a slip would move all that the calendar
 * counts from it. Contradictions between other records are not this event's fault, and do not stand in its way.
 */
export const expectPossibleIntervals = async (
  m: EntityManager,
  spawn: SpawnRow,
  event: SpawnEventRow,
): Promise<void> => {
  const rows = await eventsOf(m, spawn.id);
  const log: CareRecord[] = rows.map(({ id, kind, at }) => ({ id, step: kind, at: at.getTime() }));
  const days = daysAsRecords(spawn).filter(({ step }) => !log.some((each) => each.step === step));
  const [impossible] = impossibleIntervals([...log, ...days]).filter(
    ({ first, second }) => first.id === event.id || second.id === event.id,
  );
  if (impossible === undefined) return;
  throw fieldError({ field: 'at', message: impossibleIntervalText(impossible) });
};
