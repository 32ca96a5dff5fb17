import type { EntityManager } from 'typeorm';
import { placeHereSql } from './fish-place.js';
import type { Records } from './reads.js';
import { LineRouteRow } from './rows/line-route.entity.js';
import { thatStands } from './standing.js';

/** The route that is the plan of a line now. */
export const routeOfLine = (manager: EntityManager, lineId: string): Promise<LineRouteRow | null> =>
  manager.findOneBy(LineRouteRow, { lineId, ...thatStands });

/** A spawn that may be a brood of a plan, and how many of its young are there. */
export interface SpawnOfPlanRow {
  readonly id: string;
  readonly tag: string;
  readonly on: string | null;
  readonly failed: boolean;
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly sireSpawnId: string | null;
  readonly damSpawnId: string | null;
  readonly recorded: number;
  readonly unsorted: number;
  readonly males: number;
  readonly females: number;
  /** The latest count of the young, of whatever stage. */
  readonly counted: number | null;
  /** All that were found, those beyond the most looked at included. */
  readonly found: number;
}

/** More are not looked at: the latest stay out. */
const MOST = 500;

/** Spawns of a line or of the fish named since that day, and those that are named themselves. */
export const spawnsForPlan = (
  records: Records,
  {
    lineId,
    fish,
    since,
    spawns,
  }: {
    readonly lineId: string;
    readonly fish: readonly string[];
    readonly since: string;
    readonly spawns: readonly string[];
  },
): Promise<SpawnOfPlanRow[]> =>
  records.query(
    `SELECT s.id, s.tag, coalesce(s.spawned_on, s.hatch_date)::text AS "on", s.failed,
       s.sire_id AS "sireId", s.dam_id AS "damId", sire.spawn_id AS "sireSpawnId", dam.spawn_id AS "damSpawnId",
       (SELECT count(*)::int FROM standing_fish f WHERE f.spawn_id = s.id) AS recorded,
       (SELECT count(*)::int FROM standing_fish f WHERE f.spawn_id = s.id AND f.disposition = 'unsorted') AS unsorted,
       (SELECT count(*)::int FROM fish_in_use f WHERE f.spawn_id = s.id AND f.sex = 'male' AND ${placeHereSql('f')}) AS males,
       (SELECT count(*)::int FROM fish_in_use f WHERE f.spawn_id = s.id AND f.sex = 'female' AND ${placeHereSql('f')}) AS females,
       (SELECT c.number FROM standing_spawn_count c WHERE c.spawn_id = s.id
         ORDER BY c.counted_on DESC, c.created_at DESC LIMIT 1) AS counted,
       (count(*) OVER ())::int AS found
     FROM standing_spawn s LEFT JOIN fish sire ON sire.id = s.sire_id LEFT JOIN fish dam ON dam.id = s.dam_id
     WHERE s.id = ANY($4::uuid[]) OR (coalesce(s.spawned_on, s.hatch_date) >= $3::date
       AND (s.line_id = $1 OR sire.line_id = $1 OR dam.line_id = $1 OR s.sire_id = ANY($2::uuid[]) OR s.dam_id = ANY($2::uuid[])))
     ORDER BY "on", s.id LIMIT ${MOST}`,
    [lineId, fish, since, spawns],
  );

/** Those of the fish named that are not in use, or do not swim here. */
export const goneOf = async (records: Records, ids: readonly string[]): Promise<string[]> => {
  const rows = (await records.query(
    `SELECT named.id FROM unnest($1::uuid[]) AS named(id)
     WHERE NOT EXISTS (SELECT 1 FROM fish_in_use u WHERE u.id = named.id AND ${placeHereSql('u')})`,
    [ids],
  )) as { id: string }[];
  return rows.map(({ id }) => id);
};

/** Young of these spawns that have a record of their own, whatever became of them. */
export const youngOnRecord = (
  records: Records,
  spawnIds: readonly string[],
): Promise<{ id: string; spawnId: string }[]> =>
  records.query(
    `SELECT f.id, f.spawn_id AS "spawnId" FROM standing_fish f WHERE f.spawn_id = ANY($1::uuid[])`,
    [spawnIds],
  );

/** Young in use that swim here, of each of these spawns. */
export const youngInUse = (
  records: Records,
  spawnIds: readonly string[],
): Promise<{ id: string; spawnId: string }[]> =>
  records.query(
    `SELECT u.id, u.spawn_id AS "spawnId" FROM fish_in_use u
     WHERE u.spawn_id = ANY($1::uuid[]) AND ${placeHereSql('u')} ORDER BY u.tag, u.id`,
    [spawnIds],
  );
