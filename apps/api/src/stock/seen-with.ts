import { randomUUID } from 'node:crypto';
import type { DataSource, EntityManager } from 'typeorm';
import { type GrantPart, grantParts, LENT_SCHEMA } from '../access/grant.js';

/**
 * Reads a line as somebody would see it who was granted these parts of it to look at, through the policies and views that hold partners.
 * The grant is one of nobody's: it is made in a transaction that is taken back, so that nothing of it is left and no other connection sees it.
 */
export const seenWith = async <Seen>(
  dataSource: DataSource,
  lineId: string,
  parts: ReadonlySet<GrantPart>,
  read: (manager: EntityManager) => Promise<Seen>,
): Promise<Seen> => {
  const runner = dataSource.createQueryRunner();
  try {
    await runner.startTransaction('REPEATABLE READ');
    const id = randomUUID();
    await runner.query(`INSERT INTO person (id, name, role) VALUES ($1, 'nobody', 'partner')`, [
      id,
    ]);
    await runner.query(
      `INSERT INTO line_grant (account_id, line_id, level, ${grantParts.join(', ')}) VALUES ($1, $2, 'look', ${grantParts.map((_, k) => `$${k + 3}`).join(', ')})`,
      [id, lineId, ...grantParts.map((part) => parts.has(part))],
    );
    await runner.query(
      `SELECT set_config('linewright.actor', $1, true), set_config('search_path', $2 || ', ' || current_setting('search_path'), true)`,
      [`partner:${id}`, LENT_SCHEMA],
    );
    return await read(runner.manager);
  } finally {
    // Also takes back for whom the connection is.
    if (runner.isTransactionActive) await runner.rollbackTransaction();
    await runner.release();
  }
};
