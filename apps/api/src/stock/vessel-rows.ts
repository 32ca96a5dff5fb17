import type { EntityManager } from 'typeorm';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { Records } from './reads.js';
import { VesselRow, VesselStayRow } from './rows/vessel.entity.js';
import { standingSql } from './standing.js';

/** SQL: a code as codes are compared, without case and spaces; as in the index `vessel_by_code`. */
export const plainCodeSql = (code: string): string =>
  `lower(regexp_replace(${code}, '\\s', '', 'g'))`;

/** The same of a code at hand. */
export const plainCode = (code: string): string => code.replace(/\s/gu, '').toLowerCase();

/** SQL: the stay `y` is of a fish that is alive in the house of the vessel, or of a spawn that is under way, and has not ended. */
const STAYS_NOW = `y.left_at IS NULL AND (
  EXISTS (SELECT 1 FROM standing_fish f JOIN vessel v ON v.id = y.vessel_id
    WHERE f.id = y.fish_id AND f.disposition IN ('unsorted', 'keeper', 'hold', 'placed') AND f.swims_with_id = v.person_id)
  OR EXISTS (SELECT 1 FROM spawn_under_way u WHERE u.id = y.spawn_id))`;

/** SQL: the fish `f` is in one of the vessels of `:vesselIds` now. */
export const IN_VESSELS = `EXISTS (SELECT 1 FROM vessel_stay y
  WHERE y.fish_id = f.id AND y.vessel_id = ANY(:vesselIds) AND ${STAYS_NOW})`;

/** Who is in these vessels now, whoever came first first. */
export const staysNow = (
  manager: EntityManager,
  of: 'vesselId' | 'fishId' | 'spawnId',
  ids: readonly string[],
): Promise<VesselStayRow[]> =>
  manager
    .createQueryBuilder(VesselStayRow, 'y')
    .where(`y.${of} = ANY(:ids) AND ${STAYS_NOW}`, { ids })
    .orderBy('y.came_at')
    .addOrderBy('y.id')
    .getMany();

/** In the order in which they stand: by rack, shelf and position; those without a rack last, by code. */
const AS_THEY_STAND = `CASE WHEN v.rack IS NULL THEN '1' ELSE '0' || lower(v.rack) END || E'\\t'
  || lpad(coalesce(v.shelf, 0)::text, 10, '0') || lpad(coalesce(v.position, 0)::text, 10, '0') || ' ' || lower(v.code)`;

/** Vessels of a person, a page at a time. */
export const vesselsOf = (
  manager: EntityManager,
  personId: string,
  withWithdrawn: boolean,
  first: number,
  after: string | undefined,
): Promise<KeysetPage<VesselRow>> => {
  const query = manager
    .createQueryBuilder(VesselRow, 'v')
    .where('v.person_id = :personId', { personId });
  if (!withWithdrawn) query.andWhere(standingSql('v'));
  const order = { key: AS_THEY_STAND, direction: 'ASC', type: 'text' } as const;
  return keysetPage(query, 'v', order, first, after);
};

/** The vessel of a person with that code, however it is spelt. */
export const vesselWithCode = (
  manager: EntityManager,
  personId: string,
  code: string,
): Promise<VesselRow | null> =>
  manager
    .createQueryBuilder(VesselRow, 'v')
    .where('v.person_id = :personId', { personId })
    .andWhere(`${standingSql('v')} AND ${plainCodeSql('v.code')} = ${plainCodeSql(':code')}`, {
      code,
    })
    .getOne();

/** Of a person's vessels that are in use, the id by the plain code. */
export const vesselsByCode = (
  records: Records,
  personId: string,
): Promise<{ id: string; code: string }[]> =>
  records.query('SELECT id, code FROM standing_vessel WHERE person_id = $1', [personId]);

/** Every stay in a vessel, of a fish or of a spawn, the latest first. */
export const staysOf = (
  manager: EntityManager,
  of: { vesselId?: string; fishId?: string; spawnId?: string },
  first: number,
  after: string | undefined,
): Promise<KeysetPage<VesselStayRow>> =>
  keysetPage(
    manager.createQueryBuilder(VesselStayRow, 'y').where(of),
    'y',
    { key: 'y.came_at', direction: 'DESC', type: 'timestamptz' },
    first,
    after,
  );

/** Ends the stays that go on of fish and spawns, wherever they are. */
export const endStays = (
  manager: EntityManager,
  { fishIds, spawnIds }: { fishIds: readonly string[]; spawnIds: readonly string[] },
  at: Date,
): Promise<{ vesselId: string }[]> =>
  manager
    .createQueryBuilder()
    .update(VesselStayRow)
    .set({ leftAt: at })
    .where('left_at IS NULL AND (fish_id = ANY(:fishIds) OR spawn_id = ANY(:spawnIds))', {
      ...{ fishIds, spawnIds },
    })
    .returning('vessel_id')
    .execute()
    .then(({ raw }) =>
      (raw as { vessel_id: string }[]).map((row) => ({ vesselId: row.vessel_id })),
    );

/** Writes stays that begin. */
export const beginStays = async (
  manager: EntityManager,
  stays: readonly Partial<VesselStayRow>[],
): Promise<void> => {
  await manager.insert(VesselStayRow, [...stays]);
};
