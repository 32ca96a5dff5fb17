import type { EntityManager } from 'typeorm';
import type { Records } from './reads.js';
import { SpawnEventRow } from './rows/spawn-log.entity.js';
import { SpawnRow } from './rows/spawn.entity.js';
import { thatStands } from './standing.js';

/**
 * Spawns of a person that may still ask for something: under way, and heard of since that day. The day of recording says how old a spawn
 * is only when nothing else does: an old one may be written up today.
 */
export const spawnsHeardOf = async (
  records: Records,
  personId: string,
  since: string,
): Promise<string[]> => {
  const rows = (await records.query(
    `SELECT s.id FROM spawn_under_way s
     WHERE s.person_id = $1
       AND (coalesce(s.hatch_date, s.spawned_on) >= $2::date
         OR (coalesce(s.hatch_date, s.spawned_on) IS NULL AND s.created_at >= $2::timestamptz
           AND NOT EXISTS (SELECT 1 FROM standing_fish f WHERE f.spawn_id = s.id)
           AND NOT EXISTS (SELECT 1 FROM standing_spawn_event e WHERE e.spawn_id = s.id)
           AND NOT EXISTS (SELECT 1 FROM standing_spawn_count c WHERE c.spawn_id = s.id))
         OR EXISTS (SELECT 1 FROM standing_spawn_event e WHERE e.spawn_id = s.id AND e.at >= $2::timestamptz))
     ORDER BY s.tag, s.id`,
    [personId, since],
  )) as { id: string }[];
  return rows.map(({ id }) => id);
};

/** Whether a spawn stands, has not failed and is not closed. */
export const isUnderWay = async (records: Records, id: string): Promise<boolean> =>
  ((await records.query('SELECT 1 FROM spawn_under_way WHERE id = $1', [id])) as object[]).length >
  0;

export interface CountedStage {
  readonly stage: string;
  readonly on: string;
  readonly number: number;
}

/** SQL: what was counted of the spawn `s`, by day. */
export const COUNTED = `
  coalesce((SELECT json_agg(json_build_object('stage', c.stage, 'on', c.counted_on::text, 'number', c.number)
      ORDER BY c.counted_on, c.created_at)
    FROM standing_spawn_count c WHERE c.spawn_id = s.id), '[]') AS counts`;

/** What was counted of a spawn, and who left it. */
export interface CountedSpawn {
  readonly id: string;
  readonly counts: readonly CountedStage[];
  readonly departures: readonly {
    readonly kind: 'died' | 'culled' | 'placed';
    readonly on: string;
    readonly number: number;
  }[];
}

/** Counts and departures of spawns; fish with a record of their own depart by their own date. */
export const countedSpawns = (records: Records, ids: readonly string[]): Promise<CountedSpawn[]> =>
  records.query(
    `SELECT s.id, ${COUNTED},
       coalesce((SELECT json_agg(json_build_object('kind', d.kind, 'on', d.on_date::text, 'number', d.number)) FROM (
           SELECT l.kind, l.on_date, l.number FROM standing_spawn_loss l WHERE l.spawn_id = s.id
           UNION ALL
           SELECT f.disposition, f.disposition_date, count(*)::int FROM standing_fish f
           WHERE f.spawn_id = s.id AND f.disposition_date IS NOT NULL
             AND f.disposition IN ('died', 'culled', 'placed')
           GROUP BY f.disposition, f.disposition_date) d), '[]') AS departures
     FROM spawn s WHERE s.id = ANY($1::uuid[])`,
    [ids],
  );

/** Earlier spawns of the same person, the latest first, at most `most`; each says how many there are in all. */
export const spawnsBefore = (
  records: Records,
  spawnId: string,
  sameLine: boolean,
  most: number,
): Promise<{ id: string; inAll: number }[]> =>
  records.query(
    `SELECT p.id, count(*) OVER ()::int AS "inAll" FROM standing_spawn p JOIN spawn s ON s.id = $1
     WHERE p.person_id = s.person_id AND p.id <> s.id
       AND coalesce(p.spawned_on, p.hatch_date) < coalesce(s.spawned_on, s.hatch_date)
       AND (NOT $2::boolean OR p.line_id IS NOT DISTINCT FROM s.line_id)
     ORDER BY coalesce(p.spawned_on, p.hatch_date) DESC LIMIT $3`,
    [spawnId, sameLine, most],
  );

/** A spawn that stands and has the fish as its parent, in either part or in the one given. */
export const spawnOfParent = (
  manager: EntityManager,
  fishId: string,
  as?: 'sire' | 'dam',
): Promise<SpawnRow | null> => {
  const parts = [
    ...(as === 'dam' ? [] : [{ sireId: fishId, ...thatStands }]),
    ...(as === 'sire' ? [] : [{ damId: fishId, ...thatStands }]),
  ];
  return manager.findOne(SpawnRow, { where: parts });
};

/** Events of a spawn that stand. */
export const eventsOf = (manager: EntityManager, spawnId: string): Promise<SpawnEventRow[]> =>
  manager.findBy(SpawnEventRow, { spawnId, ...thatStands });

/** Ids of the fish of a spawn that stand, by tag. */
export const fishOfSpawn = async (records: Records, spawnId: string): Promise<string[]> => {
  const rows = (await records.query(
    'SELECT id FROM standing_fish WHERE spawn_id = $1 ORDER BY tag, id',
    [spawnId],
  )) as { id: string }[];
  return rows.map(({ id }) => id);
};
