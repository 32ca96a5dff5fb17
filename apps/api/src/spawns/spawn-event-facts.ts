import { type EntityManager, IsNull, Not } from 'typeorm';
import { SpawnEventRow } from './spawn-entries.entity.js';
import type { SpawnRow } from './spawn.entity.js';

const DAY = 86_400_000;

/** True when a day of the spawn can have been read off an event, in whatever time zone. */
const readOff = (day: string | null, at: Date): boolean =>
  day !== null && Math.abs(Date.parse(`${day}T12:00:00Z`) - at.getTime()) < 1.6 * DAY;

/**
 * What of the spawn itself goes with an event that is corrected or taken back: the day that was read off it, or that the
 * spawn failed. Nothing, while another event in force says the same.
 */
export const releaseFacts = async (
  m: EntityManager,
  spawn: SpawnRow,
  event: SpawnEventRow,
): Promise<Partial<SpawnRow>> => {
  const { kind, at } = event;
  const others = { spawnId: spawn.id, kind, withdrawnAt: IsNull(), id: Not(event.id) };
  if (await m.existsBy(SpawnEventRow, others)) return {};
  if (kind === 'spawned' && readOff(spawn.spawnedOn, at)) return { spawnedOn: null };
  if (kind === 'hatched' && readOff(spawn.hatchDate, at)) return { hatchDate: null };
  if (kind === 'failed' && spawn.failed) return { failed: false, failedReason: null };
  return {};
};
