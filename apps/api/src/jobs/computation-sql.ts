import type { EntityManager } from 'typeorm';
import { rowsOf } from './rows-of.js';

/** SQL: whether a computation of that kind about `subject` (SQL too, a text) waits or is being worked out. */
export const isUnderWaySql = (kind: string, subject: string): string =>
  `EXISTS (SELECT 1 FROM computation c WHERE c.kind = '${kind}' AND c.subject = ${subject} AND c.state IN ('queued', 'running'))`;

/** SQL: whether there is a computation of that kind about `subject`, whatever became of it. */
export const isAskedForSql = (kind: string, subject: string): string =>
  `EXISTS (SELECT 1 FROM computation c WHERE c.kind = '${kind}' AND c.subject = ${subject} AND c.state <> 'outdated')`;

/**
 * Ends a running computation in the caller's transaction, together with what it made; gives its subject. `null` when a stop was
 * asked for before this: then the caller saves nothing. Later it is too late.
 */
export const endWith = async (
  manager: EntityManager,
  id: string,
  answer: unknown,
): Promise<string | null> => {
  const [ended] = rowsOf<{ subject: string }>(
    await manager.query(
      `UPDATE computation SET state = 'done', result = $2::jsonb, progress = 1, ended_at = now(), seen_at = now()
       WHERE id = $1 AND state = 'running' AND NOT stop_asked RETURNING subject`,
      [id, JSON.stringify(answer)],
    ),
  );
  return ended?.subject ?? null;
};
