import type { DataSource } from 'typeorm';

const lockOf = (installId: string): string => `exchange ${installId}`;

/**
 * Looks into a partner's folder as the only process on this database, and the only request.
 *
 * @returns false where another one is at it: nothing was done
 */
export const alone = async (
  dataSource: DataSource,
  installId: string,
  work: () => Promise<void>,
): Promise<boolean> => {
  const runner = dataSource.createQueryRunner();
  try {
    const [row] = (await runner.query('SELECT pg_try_advisory_lock(hashtext($1)) AS got', [
      lockOf(installId),
    ])) as { got: boolean }[];
    if (row?.got !== true) return false;
    try {
      await work();
      return true;
    } finally {
      await runner.query('SELECT pg_advisory_unlock(hashtext($1))', [lockOf(installId)]);
    }
  } finally {
    await runner.release();
  }
};

/** Of installs, those whose folder is being looked into now, by whichever process. */
export const lookedInto = async (
  dataSource: DataSource,
  installIds: readonly string[],
): Promise<ReadonlySet<string>> => {
  const rows = (await dataSource.query(
    `SELECT i.id FROM unnest($1::text[], $2::text[]) AS i(id, name)
     JOIN pg_locks l ON l.locktype = 'advisory' AND l.granted AND l.objsubid = 1
       AND l.database = (SELECT oid FROM pg_database WHERE datname = current_database())
       AND ((l.classid::bigint << 32) | l.objid::bigint) = hashtext(i.name)::bigint`,
    [installIds, installIds.map(lockOf)],
  )) as { id: string }[];
  return new Set(rows.map(({ id }) => id));
};
