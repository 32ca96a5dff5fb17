import type { EntityManager } from 'typeorm';
import { notFound } from '../errors/request-error.js';
import type { Records } from './reads.js';
import { LineRow } from './rows/line.entity.js';
import { thatStands } from './standing.js';

/** @throws RequestError `NOT_FOUND` for the first that is not recorded. */
export const expectLines = async (records: Records, ids: readonly string[]): Promise<void> => {
  if (ids.length === 0) return;
  const rows = (await records.query('SELECT id FROM line WHERE id = ANY($1::uuid[])', [ids])) as {
    id: string;
  }[];
  const known = new Set(rows.map((row) => row.id));
  const missing = ids.find((id) => !known.has(id.toLowerCase()));
  if (missing !== undefined) throw notFound('line', missing);
};

/** Id of a person's line with that code. */
export const lineWithCode = async (
  records: Records,
  personId: string,
  code: string,
): Promise<string | null> => {
  const [row] = (await records.query('SELECT id FROM line WHERE person_id = $1 AND code = $2', [
    personId,
    code,
  ])) as { id: string }[];
  return row?.id ?? null;
};

export const linesByCode = (manager: EntityManager, withdrawnToo: boolean): Promise<LineRow[]> =>
  manager.find(LineRow, {
    where: withdrawnToo ? {} : thatStands,
    order: { code: 'ASC', id: 'ASC' },
  });
