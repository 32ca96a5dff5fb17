import type { EntityManager } from 'typeorm';
import { type OwnTable, ownTables } from './own-tables.js';

export type OwnRow = Readonly<Record<string, unknown>>;

/** How many rows of each table are somebody's own; tables without any are left out. Cost: a count of each table. */
export const countOwnRows = async (
  manager: EntityManager,
  personId: string,
): Promise<{ table: OwnTable; count: number }[]> => {
  const counted: { table: OwnTable; count: number }[] = [];
  for (const table of ownTables) {
    const [row] = (await manager.query(
      `SELECT count(*)::int AS count FROM "${table.table}" t WHERE ${table.theirs}`,
      [personId],
    )) as { count: number }[];
    if ((row?.count ?? 0) > 0) counted.push({ table, count: row!.count });
  }
  return counted;
};

const AT_ONCE = 2_000;

/** Rows of one table that are somebody's own, some at a time, as JSON under the names of their columns. In the caller's transaction. */
export async function* ownRows(
  manager: EntityManager,
  { table, theirs, without = [] }: OwnTable,
  personId: string,
): AsyncGenerator<readonly OwnRow[]> {
  await manager.query(
    `DECLARE own_rows NO SCROLL CURSOR FOR SELECT to_jsonb(t) - $2::text[] AS row FROM "${table}" t WHERE ${theirs}`,
    [personId, without],
  );
  try {
    for (;;) {
      const rows = (await manager.query(`FETCH ${AT_ONCE} FROM own_rows`)) as { row: OwnRow }[];
      if (rows.length === 0) return;
      yield rows.map(({ row }) => row);
    }
  } finally {
    await manager.query('CLOSE own_rows');
  }
}

/** Pictures on somebody's own fish and spawns, each once. */
export const ownPhotoFiles = (
  manager: EntityManager,
  personId: string,
): Promise<{ sha256: string; mediaType: string }[]> =>
  manager.query(
    `SELECT DISTINCT sha256, media_type AS "mediaType" FROM photo t
     WHERE ${ownTables.find(({ table }) => table === 'photo')!.theirs} ORDER BY sha256`,
    [personId],
  );
