import type { EntityManager } from 'typeorm';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import { VesselRow, VesselStayRow } from './rows/vessel.entity.js';
import { standingSql } from './standing.js';
import { plainCodeSql, STAYS_NOW } from './vessel-codes.js';

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
