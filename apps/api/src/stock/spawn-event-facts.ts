import { dayIn } from '@linewright/care';
import { type EntityManager, Not } from 'typeorm';
import { SpawnEventRow } from './rows/spawn-log.entity.js';
import type { SpawnRow } from './rows/spawn.entity.js';
import { thatStands } from './standing.js';

/** An event recorded (`before` null), corrected, or taken back (`after` null). */
export interface EventChange {
  readonly before: SpawnEventRow | null;
  readonly after: SpawnEventRow | null;
  /** IANA name of the zone in which the day of an event is read. */
  readonly zone: string;
}

type DayField = 'spawnedOn' | 'hatchDate';

const dayFieldOf: Readonly<Record<string, DayField>> = {
  spawned: 'spawnedOn',
  hatched: 'hatchDate',
};

/**
 * Whether what stands in a field of a spawn was last written by an event of its log: then the two were written in one
 * transaction, and history gives both its time. Everything else was given by hand.
 */
const READ_OFF = `
  SELECT EXISTS (SELECT 1 FROM spawn_event e JOIN record_history h ON h.record_id = e.id
    WHERE e.spawn_id = $1 AND h.at = (SELECT w.at FROM record_history w
      WHERE w.record_id = $1 AND w.changes -> $2 IS NOT NULL ORDER BY w.sequence DESC LIMIT 1)) AS "readOff"`;

const readOffLog = async (m: EntityManager, spawnId: string, field: string): Promise<boolean> => {
  const [row] = (await m.query(READ_OFF, [spawnId, field])) as { readOff: boolean }[];
  return row?.readOff === true;
};

/** Other events of the kind in force, the earliest first. */
const others = (m: EntityManager, { id, spawnId, kind }: SpawnEventRow): Promise<SpawnEventRow[]> =>
  m.find(SpawnEventRow, {
    where: { spawnId, kind, ...thatStands, id: Not(id) },
    order: { at: 'ASC', id: 'ASC' },
  });

/** What of the spawn itself changes with an event: its days are those of the earliest event, and it failed when one says so. */
export const factsAfter = async (
  m: EntityManager,
  spawn: SpawnRow,
  change: EventChange,
): Promise<Partial<SpawnRow>> => {
  const event = change.after ?? change.before;
  if (event === null) return {};
  if (event.kind === 'failed') return failureAfter(m, spawn, event, change);
  const field = dayFieldOf[event.kind];
  return field === undefined ? {} : dayAfterChange(m, spawn, field, event, change);
};

const dayAfterChange = async (
  m: EntityManager,
  spawn: SpawnRow,
  field: DayField,
  event: SpawnEventRow,
  { before, after, zone }: EventChange,
): Promise<Partial<SpawnRow>> => {
  if (before !== null && after !== null && before.at.getTime() === after.at.getTime()) return {};
  // A day given by hand is the person's word: no event takes it away.
  if (spawn[field] !== null && !(await readOffLog(m, spawn.id, field))) return {};
  const [first] = await others(m, event);
  if (after !== null && (first === undefined || after.at < first.at)) {
    return { [field]: dayIn(after.at.getTime(), zone) };
  }
  if (first === undefined) return { [field]: null };
  // Its day was read in the zone it was recorded in: read again only where it was not the first until now.
  const wasFirst = before !== null && before.at < first.at;
  return wasFirst || spawn[field] === null ? { [field]: dayIn(first.at.getTime(), zone) } : {};
};

const failureAfter = async (
  m: EntityManager,
  spawn: SpawnRow,
  event: SpawnEventRow,
  { after }: EventChange,
): Promise<Partial<SpawnRow>> => {
  const byHand = spawn.failed && !(await readOffLog(m, spawn.id, 'failed'));
  if (after !== null) {
    return { failed: true, failedReason: byHand ? (spawn.failedReason ?? after.note) : after.note };
  }
  if (!spawn.failed || byHand || (await others(m, event)).length > 0) return {};
  return { failed: false, failedReason: null };
};
