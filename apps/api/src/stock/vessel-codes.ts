import type { Records } from './reads.js';
import type { VesselKind } from './rows/vessel.entity.js';

/** SQL: a code as codes are compared, without case and spaces; as in the index `vessel_by_code`. */
export const plainCodeSql = (code: string): string =>
  `lower(regexp_replace(${code}, '\\s', '', 'g'))`;

/** The same of a code at hand. */
export const plainCode = (code: string): string => code.replace(/\s/gu, '').toLowerCase();

const KINDS: readonly VesselKind[] = ['jar', 'tub', 'tank', 'cone'];

/** What kind of vessel a name speaks of. */
export const kindOfName = (name: string): VesselKind =>
  KINDS.find((kind) => name.toLowerCase().includes(kind)) ?? 'other';

/** SQL: the stay `y` is of a fish that is alive in the house of the vessel, or of a spawn that is under way, and has not ended. */
export const STAYS_NOW = `y.left_at IS NULL AND (
  EXISTS (SELECT 1 FROM standing_fish f JOIN vessel v ON v.id = y.vessel_id
    WHERE f.id = y.fish_id AND f.disposition IN ('unsorted', 'keeper', 'hold', 'placed') AND f.swims_with_id = v.person_id)
  OR EXISTS (SELECT 1 FROM spawn_under_way u WHERE u.id = y.spawn_id))`;

/** A person's vessels that are in use, with the tags of the fish in each. */
export const vesselsByCode = (
  records: Records,
  personId: string,
): Promise<{ id: string; code: string; tags: string[] }[]> =>
  records.query(
    `SELECT v.id, v.code, ARRAY(SELECT f.tag FROM vessel_stay y JOIN standing_fish f ON f.id = y.fish_id
       WHERE y.vessel_id = v.id AND ${STAYS_NOW} ORDER BY f.tag) AS tags
     FROM standing_vessel v WHERE v.person_id = $1`,
    [personId],
  );

/** Stays that begin, written by hand where a connection knows no entities. */
export const writeStays = (
  records: Records,
  stays: readonly { readonly id: string; readonly vesselId: string; readonly fishId: string }[],
  at: Date,
  by: string,
): Promise<unknown> =>
  records.query(
    `INSERT INTO vessel_stay (id, vessel_id, fish_id, came_at, by_name)
     SELECT id, vessel_id, fish_id, $4, $5 FROM unnest($1::uuid[], $2::uuid[], $3::uuid[]) AS s(id, vessel_id, fish_id)`,
    [
      stays.map(({ id }) => id),
      stays.map(({ vesselId }) => vesselId),
      stays.map(({ fishId }) => fishId),
      ...[at, by],
    ],
  );
