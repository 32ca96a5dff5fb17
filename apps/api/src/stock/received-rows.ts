import type { EntityManager } from 'typeorm';
import { HistoryRow } from './rows/history.entity.js';

/** Changes that were taken in from a partner in one transaction, which all bear its moment. */
export const changesReceivedAt = async (manager: EntityManager, at: Date): Promise<HistoryRow[]> =>
  manager
    .createQueryBuilder(HistoryRow, 'h')
    // The database keeps microseconds, and a moment here milliseconds.
    .where(`h.action = 'received' AND date_trunc('milliseconds', h.at) = :at`, { at })
    .orderBy('h.sequence', 'ASC')
    .getMany();

/** Columns that point to a record of a table, by which it is in use. */
const pointers: Readonly<Record<string, readonly (readonly [string, string])[]>> = {
  fish: [
    ['spawn', 'sire_id'],
    ['spawn', 'dam_id'],
  ],
  spawn: [['fish', 'spawn_id']],
};

/** Of records that came, those that somebody changed since; and those that were new and that a record which did not come with them rests on. */
export const receivedAndUsed = async (
  manager: EntityManager,
  table: string,
  came: readonly Pick<HistoryRow, 'recordId' | 'revision'>[],
): Promise<ReadonlySet<string>> => {
  const given = JSON.stringify(came.map(({ recordId: id, revision }) => ({ id, revision })));
  const rows = (await manager.query(
    `SELECT t.id FROM "${table}" t JOIN json_to_recordset($1::json) AS r(id uuid, revision integer) ON r.id = t.id
     WHERE t.revision <> r.revision`,
    [given],
  )) as { id: string }[];
  const used = new Set(rows.map(({ id }) => id));
  for (const [other, column] of pointers[table] ?? []) {
    const resting = (await manager.query(
      `SELECT DISTINCT d."${column}" AS id FROM "standing_${other}" d JOIN json_to_recordset($1::json) AS r(id uuid, revision integer)
         ON r.id = d."${column}" WHERE r.revision = 1`,
      [given],
    )) as { id: string }[];
    for (const { id } of resting) used.add(id);
  }
  return used;
};
