import { aliveHereSql, inUseSql, placePartnerSql } from './fish-place.js';
import type { Records } from './reads.js';
import { COUNTED, type CountedStage } from './spawn-rows.js';

/** What a jar's label says. */
export interface LabelRow {
  readonly id: string;
  readonly tag: string;
  readonly name: string | null;
  readonly sex: string;
  readonly hatchDate: string | null;
  readonly line: string | null;
  readonly spawn: string | null;
  /** The partner it swims with; null when it swims here or nobody knows where. */
  readonly swimsWith: string | null;
  /** The partner whose record it is; null for one's own. */
  readonly recordOf: string | null;
}

/** What the label of a vessel says, whoever is in it. */
export interface VesselLabelRow {
  readonly id: string;
  readonly personId: string;
  readonly code: string;
  readonly litres: number | null;
  readonly rack: string | null;
  readonly shelf: number | null;
  readonly position: number | null;
}

/** Labels of a person's vessels in use, of those named or of all, as they stand; at most `most`. */
export const labelsOfVessels = (
  records: Records,
  personId: string,
  ids: readonly string[],
  most: number,
): Promise<VesselLabelRow[]> =>
  records.query(
    `SELECT id, person_id AS "personId", code, litres, rack, shelf, position FROM standing_vessel
     WHERE person_id = $1 AND (cardinality($2::uuid[]) = 0 OR id = ANY($2::uuid[]))
     ORDER BY lower(rack) NULLS LAST, shelf, position, lower(code), id LIMIT $3`,
    [personId, ids, most],
  );

const LABELS = `
  SELECT f.id, f.tag, f.name, f.sex, coalesce(f.hatch_date, s.hatch_date)::text AS "hatchDate",
    l.code AS line, s.tag AS spawn,
    CASE WHEN ${placePartnerSql('f')} THEN (SELECT name FROM person WHERE id = f.swims_with_id) END AS "swimsWith",
    (SELECT name FROM person WHERE id = f.person_id AND NOT here) AS "recordOf"
  FROM standing_fish f LEFT JOIN spawn s ON s.id = f.spawn_id LEFT JOIN line l ON l.id = f.line_id`;

/** Labels of the named fish, in no order. */
export const labelsOfFish = (records: Records, ids: readonly string[]): Promise<LabelRow[]> =>
  records.query(`${LABELS} WHERE f.id = ANY($1::uuid[])`, [ids]);

/** Labels of a spawn's or a line's fish that are alive here, by tag, at most `most` of them. */
export const labelsHere = (
  records: Records,
  of: 'spawn_id' | 'line_id',
  id: string,
  most: number,
): Promise<LabelRow[]> =>
  records.query(`${LABELS} WHERE f.${of} = $1 AND ${aliveHereSql('f')} ORDER BY f.tag LIMIT $2`, [
    id,
    most,
  ]);

/** What a spawn's card says. */
export interface SpawnFacts {
  readonly id: string;
  readonly tag: string;
  readonly spawnedOn: string | null;
  readonly hatchDate: string | null;
  readonly purpose: string | null;
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly line: string | null;
  readonly counts: readonly CountedStage[];
}

/** By tag. */
export const factsOfSpawns = (records: Records, ids: readonly string[]): Promise<SpawnFacts[]> =>
  records.query(
    `SELECT s.id, s.tag, s.spawned_on::text AS "spawnedOn", s.hatch_date::text AS "hatchDate", s.purpose,
       s.sire_id AS "sireId", s.dam_id AS "damId", l.code AS line, ${COUNTED}
     FROM standing_spawn s LEFT JOIN line l ON l.id = s.line_id
     WHERE s.id = ANY($1::uuid[]) ORDER BY s.tag`,
    [ids],
  );

/** What a line's card says of the line itself. */
export interface LineFacts {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly goal: string | null;
}

/** By code. */
export const factsOfLines = (records: Records, ids: readonly string[]): Promise<LineFacts[]> =>
  records.query(
    'SELECT id, code, name, goal FROM standing_line WHERE id = ANY($1::uuid[]) ORDER BY code',
    [ids],
  );

export interface LineFish {
  readonly id: string;
  readonly tag: string;
  readonly name: string | null;
  readonly spawnId: string | null;
  readonly inUse: boolean;
}

/** Fish of a line, the oldest first. */
export const fishOfLine = (records: Records, lineId: string): Promise<LineFish[]> =>
  records.query(
    `SELECT id, tag, name, spawn_id AS "spawnId", ${inUseSql('f')} AS "inUse"
     FROM standing_fish f WHERE line_id = $1 ORDER BY hatch_date NULLS FIRST, tag`,
    [lineId],
  );

/** Losses thought heritable in a line's spawns, by reason, the most first. */
export const heritableLosses = (
  records: Records,
  lineId: string,
): Promise<{ reason: string; number: number; spawns: number }[]> =>
  records.query(
    `SELECT l.reason, sum(l.number)::int AS number, count(DISTINCT l.spawn_id)::int AS spawns
     FROM standing_spawn_loss l JOIN standing_spawn s ON s.id = l.spawn_id
     WHERE s.line_id = $1 AND l.heritable
     GROUP BY l.reason ORDER BY number DESC, l.reason`,
    [lineId],
  );

/** How many of the fish have which genotype. */
export const genotypesCounted = (
  records: Records,
  fishIds: readonly string[],
): Promise<{ locusId: string; genotype: string; number: number }[]> =>
  records.query(
    `SELECT locus_id AS "locusId", genotype, count(*)::int AS number FROM standing_genotype
     WHERE fish_id = ANY($1::uuid[])
     GROUP BY locus_id, genotype ORDER BY locus_id, genotype`,
    [fishIds],
  );

/** Spawns of a line with a parent from outside of it, the latest first. */
export const outcrossesOf = (
  records: Records,
  lineId: string,
): Promise<{ tag: string; other: string; on: string | null }[]> =>
  records.query(
    `SELECT s.tag, p.tag AS other, s.spawned_on::text AS on FROM standing_spawn s
     JOIN fish p ON p.id IN (s.sire_id, s.dam_id)
     WHERE s.line_id = $1 AND (
       p.line_id IS DISTINCT FROM s.line_id
       OR (p.spawn_id IS NULL AND EXISTS (
         SELECT 1 FROM fish q WHERE q.id IN (s.sire_id, s.dam_id) AND q.spawn_id IS NOT NULL)))
     ORDER BY s.spawned_on DESC NULLS LAST, s.tag`,
    [lineId],
  );
