import { randomUUID } from 'node:crypto';
import { DataSource } from 'typeorm';
import { asSystem } from '../../apps/api/src/access/acting.js';
import type { RunningApi } from './harness.js';

/** SQL of what sets a copy apart; `n` counts the copies. */
const APART: Readonly<Record<string, string>> = {
  fish: `'tag', (t).tag || ' copy ' || n || left(gen_random_uuid()::text, 8)`,
  spawn: `'tag', (t).tag || ' copy ' || n || left(gen_random_uuid()::text, 8)`,
  line: `'code', 'C' || n || left(gen_random_uuid()::text, 4)`,
  trait_definition: `'key', 'copy_' || n || left(gen_random_uuid()::text, 4)`,
  genotype: `'locus_id', 'copy-' || left(gen_random_uuid()::text, 8)`,
  computation: `'subject', gen_random_uuid()::text, 'started_at', now()`,
  vessel: `'code', 'J' || n || left(gen_random_uuid()::text, 6)`,
  person: `'here', false, 'role', null`,
};

/** SQL of one's own, past every rule of the product. */
export const sql = <Row>(api: RunningApi, text: string, given: unknown[] = []): Promise<Row[]> =>
  asSystem(
    'demo',
    () => api.served.app.get(DataSource, { strict: false }).query(text, given) as Promise<Row[]>,
  );

/**
 * Copies of a row of that table, with ids of their own: of the one given, or of the first that stands. Straight into the
 * database: what is wanted is length, and no rule about what may be recorded.
 */
export const copies = async (
  api: RunningApi,
  table: string,
  number: number,
  fields: object = {},
  of: string | null = null,
): Promise<string[]> => {
  const apart = APART[table];
  const rows = await sql<{ id: string }>(
    api,
    `INSERT INTO "${table}"
     SELECT (jsonb_populate_record(t, jsonb_build_object('id', gen_random_uuid()${apart === undefined ? '' : `, ${apart}`}) || $2::jsonb)).*
     FROM (SELECT r FROM "${table}" r WHERE $3::uuid IS NULL OR r.id = $3 ORDER BY r.id LIMIT 1) one(t), generate_series(1, $1::int) n
     RETURNING id`,
    [number, JSON.stringify(fields), of],
  );
  return rows.map(({ id }) => id);
};

/** One row of that table, of these columns. */
export const row = async (
  api: RunningApi,
  table: string,
  columns: Readonly<Record<string, unknown>>,
): Promise<string> => {
  const id = randomUUID();
  const all = { id, ...columns };
  await sql(
    api,
    `INSERT INTO "${table}" (${Object.keys(all).join(', ')})
     VALUES (${Object.keys(all)
       .map((_, k) => `$${k + 1}`)
       .join(', ')})`,
    Object.values(all),
  );
  return id;
};
