import type { FishStanding, PairingCandidate } from '@linewright/mating';
import type { EntityManager } from 'typeorm';
import { notFound } from '../errors/request-error.js';
import type { FishDisposition } from './rows/fish.entity.js';
import { placeHereSql } from './fish-place.js';
import { withdrawnSql } from './standing.js';

const CANDIDATES = `
  SELECT f.id, f.tag, f.sex, f.hatch_date::text AS "hatchedOn", f.spawn_id AS "spawnId", f.line_id AS "lineId",
    l.name AS "lineName", f.disposition, f.disposition_date::text AS "decidedOn", f.disposition_reason AS "decidedFor",
    f.withdrawn_reason AS "withdrawnReason", ${withdrawnSql('f')} AS withdrawn, coalesce(${placeHereSql('f')}, false) AS here,
    p.name AS "swimsWith",
    o."quarantineUntil", o."lentUntil",
    (SELECT max(coalesce(s.spawned_on, s.hatch_date))::text FROM standing_spawn s
      WHERE s.sire_id = f.id OR s.dam_id = f.id) AS "lastSpawnedOn"
  FROM fish f LEFT JOIN line l ON l.id = f.line_id LEFT JOIN person p ON p.id = f.swims_with_id
    LEFT JOIN LATERAL (SELECT max(h.quarantine_until)::text AS "quarantineUntil", max(h.back_on)::text AS "lentUntil"
      FROM standing_hand_over h WHERE h.fish_id = f.id AND h.moved_on IS NOT NULL AND h.ended_on IS NULL) o ON true
  WHERE f.id = ANY($1::uuid[])`;

/** In use, of the lines that a parameter names; of all when it is null. */
const inUseOf = (lines: string): string =>
  `fish_in_use u WHERE (${lines}::uuid[] IS NULL OR u.line_id = ANY(${lines}::uuid[]))`;

export interface CandidateRow {
  readonly id: string;
  readonly tag: string;
  readonly sex: string;
  readonly hatchedOn: string | null;
  readonly spawnId: string | null;
  readonly lineId: string | null;
  readonly lineName: string | null;
  readonly lastSpawnedOn: string | null;
  readonly disposition: FishDisposition;
  readonly decidedOn: string | null;
  readonly decidedFor: string | null;
  readonly withdrawn: boolean;
  readonly withdrawnReason: string | null;
  readonly here: boolean;
  readonly swimsWith: string | null;
  readonly quarantineUntil: string | null;
  readonly lentUntil: string | null;
}

/** Which fish in use stand beside those that are named. */
export interface InUse {
  /** Of these lines; of all when null. */
  readonly lineIds: readonly string[] | null;
  /** Those that swim with partners, or nobody knows where, too. */
  readonly partners: boolean;
}

/** The fish named, whatever became of them, and those in use: all of them, by tag. */
export const candidateRows = async (
  manager: EntityManager,
  ids: readonly string[],
  inUse: InUse | null,
): Promise<CandidateRow[]> => {
  const order = 'ORDER BY f.tag, f.id';
  const rows = (await (inUse === null
    ? manager.query(`${CANDIDATES} ${order}`, [ids])
    : manager.query(
        `${CANDIDATES} OR f.id IN (SELECT u.id FROM ${inUseOf('$2')}${inUse.partners ? '' : ` AND ${placeHereSql('u')}`}) ${order}`,
        [ids, inUse.lineIds?.length ? inUse.lineIds : null],
      ))) as CandidateRow[];
  const found = new Set(rows.map(({ id }) => id));
  const missing = ids.find((id) => !found.has(id.toLowerCase()));
  if (missing !== undefined) throw notFound('fish', missing);
  return rows;
};

/** How many fish in use are left out because they do not swim here. */
export const countAway = async (
  manager: EntityManager,
  lineIds: readonly string[] | null,
): Promise<number> => {
  const [row] = (await manager.query(
    `SELECT count(*)::int AS count FROM ${inUseOf('$1')} AND (${placeHereSql('u')}) IS NOT TRUE`,
    [lineIds?.length ? lineIds : null],
  )) as { count: number }[];
  return row?.count ?? 0;
};

const STATES = {
  unsorted: 'alive',
  keeper: 'alive',
  hold: 'alive',
  placed: 'placed',
  culled: 'culled',
  died: 'died',
  elsewhere: 'parent-only',
} as const satisfies Record<FishDisposition, FishStanding['state']>;

const standingOf = (row: CandidateRow): FishStanding => ({
  state: STATES[row.disposition],
  ...(row.decidedOn !== null && { on: row.decidedOn }),
  ...(row.decidedFor !== null && { reason: row.decidedFor }),
  ...(!row.here && { swimsWith: row.swimsWith }),
  ...(row.lentUntil !== null && { lentUntil: row.lentUntil }),
  ...(row.quarantineUntil !== null && { quarantineUntil: row.quarantineUntil }),
  ...(row.withdrawn && { withdrawn: row.withdrawnReason ?? 'no reason given' }),
});

/** What a row says of the fish itself, without genotypes and scores. */
export const toCandidate = (row: CandidateRow): PairingCandidate => ({
  id: row.id,
  tag: row.tag,
  sex: row.sex === 'male' || row.sex === 'female' ? row.sex : 'unknown',
  standing: standingOf(row),
  ...(row.hatchedOn !== null && { hatchedOn: row.hatchedOn }),
  ...(row.lastSpawnedOn !== null && { lastSpawnedOn: row.lastSpawnedOn }),
  ...(row.spawnId !== null && { spawnId: row.spawnId }),
  ...(row.lineId !== null && { line: { id: row.lineId, name: row.lineName ?? '' } }),
});
