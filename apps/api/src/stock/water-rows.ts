import { type EntityManager, In } from 'typeorm';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { Records } from './reads.js';
import { WaterReadingRow } from './rows/water-reading.entity.js';
import { standingSql } from './standing.js';
import { plainCodeSql } from './vessel-codes.js';

/** For every spawn and vessel with readings: the newest, how many there are, and the spawn's tag. */
export const newestReadings = (
  records: Records,
  personId: string,
): Promise<{ id: string; tag: string | null; code: string | null; count: number }[]> =>
  records.query(
    `SELECT DISTINCT ON (w.spawn_id, w.vessel_id) w.id, s.tag, v.code,
       count(*) OVER (PARTITION BY w.spawn_id, w.vessel_id)::int AS count
     FROM standing_water_reading w LEFT JOIN spawn s ON s.id = w.spawn_id LEFT JOIN vessel v ON v.id = w.vessel_id
     WHERE w.person_id = $1
     ORDER BY w.spawn_id, w.vessel_id, w.taken_at DESC, w.id`,
    [personId],
  );

export const readingsById = (
  manager: EntityManager,
  ids: readonly string[],
): Promise<WaterReadingRow[]> => manager.findBy(WaterReadingRow, { id: In([...ids]) });

/** Readings that stand, of a spawn or of a person's waters, of one vessel alone where its code is given, however it is spelt; newest first, a page at a time. */
export const listReadings = (
  manager: EntityManager,
  of: { readonly spawnId: string } | { readonly personId: string },
  vessel: string | null,
  first: number,
  after: string | undefined,
): Promise<KeysetPage<WaterReadingRow>> => {
  const query = manager.createQueryBuilder(WaterReadingRow, 'w').where(standingSql('w'));
  if ('spawnId' in of) query.andWhere('w.spawn_id = :spawnId', of);
  else query.andWhere('w.person_id = :personId', of);
  if (vessel !== null)
    query.andWhere(
      `w.vessel_id IN (SELECT v.id FROM vessel v WHERE ${plainCodeSql('v.code')} = ${plainCodeSql(':vessel')})`,
      { vessel },
    );
  const newestFirst = { key: 'w.taken_at', type: 'timestamptz', direction: 'DESC' } as const;
  return keysetPage(query, 'w', newestFirst, first, after);
};
