import type { Disposition, Sex } from '../graphql/enums.js';
import { inUseSql } from './fish-place.js';
import type { Records } from './reads.js';

/** A fish as figures about a stock name it. */
export interface NamedRow {
  readonly id: string;
  readonly tag: string;
  readonly sex: Sex;
  readonly disposition: Disposition;
  readonly hatchDate: string | null;
  readonly lineCode: string | null;
}

/** A fish as a drawing of the pedigree needs it. */
export interface DrawnRow extends NamedRow {
  readonly spawnId: string | null;
  readonly spawnTag: string | null;
}

const NAMED = `f.id, f.tag, f.sex, f.disposition, f.hatch_date::text AS "hatchDate", l.code AS "lineCode"`;

/** $1: the undecided too. */
const IN_USE = `(${inUseSql('f')} OR ($1 AND f.disposition = 'unsorted'))`;
const OF_LINES = '($2::uuid[] IS NULL OR f.line_id = ANY($2::uuid[]))';

/** Full sibs have it alike: young of one pair, and young of one spawn whose parents are not all known. */
const BROOD = `coalesce(s.sire_id::text || s.dam_id::text, CASE WHEN s.mixed_origin IS NOT TRUE THEN s.id::text END, f.id::text)`;

/** By id, withdrawn ones too: an ancestor stays an ancestor. */
export const namedRows = (records: Records, ids: readonly string[]): Promise<NamedRow[]> =>
  records.query(
    `SELECT ${NAMED} FROM fish f LEFT JOIN line l ON l.id = f.line_id WHERE f.id = ANY($1::uuid[])`,
    [ids],
  );

/** By id, withdrawn ones too, with the spawn they are of. */
export const drawnRows = (records: Records, ids: readonly string[]): Promise<DrawnRow[]> =>
  records.query(
    `SELECT ${NAMED}, f.spawn_id AS "spawnId", s.tag AS "spawnTag"
     FROM fish f LEFT JOIN spawn s ON s.id = f.spawn_id LEFT JOIN line l ON l.id = f.line_id
     WHERE f.id = ANY($1::uuid[])`,
    [ids],
  );

/** Of the fish with these ids, those that are ancestors of fish or spawns of the lines. Cost: one walk up from the lines. */
export const ancestorsAmong = (
  records: Records,
  ids: readonly string[],
  lineIds: readonly string[],
): Promise<NamedRow[]> =>
  records.query(
    `WITH RECURSIVE behind(id) AS (
       SELECT p.id FROM spawn s CROSS JOIN LATERAL (VALUES (s.sire_id), (s.dam_id)) AS p(id)
       WHERE p.id IS NOT NULL AND (s.line_id = ANY($2::uuid[])
         OR s.id IN (SELECT spawn_id FROM fish WHERE line_id = ANY($2::uuid[])))
       UNION
       SELECT p.id FROM behind b JOIN fish f ON f.id = b.id JOIN spawn s ON s.id = f.spawn_id
         CROSS JOIN LATERAL (VALUES (s.sire_id), (s.dam_id)) AS p(id)
       WHERE p.id IS NOT NULL
     )
     SELECT ${NAMED} FROM fish f LEFT JOIN line l ON l.id = f.line_id
     WHERE f.id = ANY($1::uuid[]) AND f.id IN (SELECT id FROM behind)`,
    [ids, lineIds],
  );

/** Sex alone, of fish that are drawn without their names. */
export const sexesOf = (
  records: Records,
  ids: readonly string[],
): Promise<Pick<NamedRow, 'id' | 'sex'>[]> =>
  records.query('SELECT id, sex FROM fish WHERE id = ANY($1::uuid[])', [ids]);

/** Tags of spawns by id, withdrawn ones too. */
export const tagsOfSpawns = async (
  records: Records,
  ids: readonly string[],
): Promise<Map<string, string>> => {
  const rows = (await records.query('SELECT id, tag FROM spawn WHERE id = ANY($1::uuid[])', [
    ids,
  ])) as { id: string; tag: string }[];
  return new Map(rows.map(({ id, tag }) => [id, tag]));
};

/** Whether there is such a fish that whoever asks may see. */
export const seesFish = async (records: Records, id: string): Promise<boolean> =>
  ((await records.query('SELECT 1 FROM fish WHERE id = $1', [id])) as object[]).length > 0;

/** Fish of a line that stand, by tag. */
export const namedOfLine = (
  records: Records,
  lineId: string,
): Promise<(NamedRow & { inUse: boolean })[]> =>
  records.query(
    `SELECT ${NAMED}, ${inUseSql('f')} AS "inUse" FROM standing_fish f LEFT JOIN line l ON l.id = f.line_id
     WHERE f.line_id = $1 ORDER BY f.tag, f.id`,
    [lineId],
  );

/** Which fish in use are asked for. */
export interface InUseOf {
  /** Of these lines; of all when null. */
  readonly lineIds: readonly string[] | null;
  readonly includeUnsorted: boolean;
}

/** By tag, at most `most` of them. */
export const namedInUse = (
  records: Records,
  { lineIds, includeUnsorted }: InUseOf,
  most: number,
): Promise<(NamedRow & { inUse: boolean })[]> =>
  records.query(
    `SELECT ${NAMED}, ${inUseSql('f')} AS "inUse" FROM standing_fish f LEFT JOIN line l ON l.id = f.line_id
     WHERE ${IN_USE} AND ${OF_LINES} ORDER BY f.tag, f.id LIMIT $3`,
    [includeUnsorted, lineIds, most],
  );

/**
 * One of each sex of every pair's young, the first by tag, with how many it stands for; fish without a spawn, and those of a mixed one
 * with a parent unknown, stand for themselves.
 */
export const oneOfEachSib = (
  records: Records,
  { lineIds, includeUnsorted }: InUseOf,
  most: number,
): Promise<(NamedRow & { standsFor: number })[]> =>
  records.query(
    `SELECT id, tag, sex, disposition, "hatchDate", "lineCode", "standsFor" FROM (
       SELECT ${NAMED}, row_number() OVER sibs AS place,
         (count(*) OVER (PARTITION BY ${BROOD}, f.sex))::int AS "standsFor"
       FROM standing_fish f LEFT JOIN line l ON l.id = f.line_id LEFT JOIN spawn s ON s.id = f.spawn_id
       WHERE ${IN_USE} AND ${OF_LINES}
       WINDOW sibs AS (PARTITION BY ${BROOD}, f.sex ORDER BY f.tag, f.id)
     ) AS ranked WHERE place = 1 ORDER BY tag, id LIMIT $3`,
    [includeUnsorted, lineIds, most],
  );

export const countInUse = async (
  records: Records,
  { lineIds, includeUnsorted }: InUseOf,
): Promise<number> => {
  const [row] = (await records.query(
    `SELECT count(*)::int AS count FROM standing_fish f WHERE ${IN_USE} AND ${OF_LINES}`,
    [includeUnsorted, lineIds],
  )) as { count: number }[];
  return row?.count ?? 0;
};
