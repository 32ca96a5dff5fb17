import { randomUUID } from 'node:crypto';
import { joinStamps, type Packed, type Stamp } from '@linewright/merging';
import type { EntityManager } from 'typeorm';
import { emptied, emptiedScores, type ErasedRecords } from './erase-records.js';

interface Kept {
  readonly id: string;
  readonly versions: Packed;
  readonly seen: Readonly<Record<string, unknown>>;
}

const fieldOf = (column: string): string =>
  column.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase());

const stampsIn = ({ all, parts = {}, others = {} }: Packed): Stamp[] => [
  all,
  ...Object.values(parts),
  ...Object.values(others).flatMap((versions) => versions.map(({ stamp }) => stamp)),
];

/** The same record as it is now, with what was said before nowhere in it. */
const emptiedSeen = (
  seen: Kept['seen'],
  columns: readonly string[],
  row: Readonly<Record<string, unknown>>,
): Kept['seen'] =>
  Object.fromEntries(
    Object.entries(seen).map(([name, value]) => {
      const column = columns.find((one) => fieldOf(one) === name);
      return [name, column === undefined ? value : (row[column] ?? null)];
    }),
  );

/**
 * That somebody's records were erased is a change of them which knows of all that stood, so that it replaces what partners' installs still
 * hold of them; and no text of before stays beside them here. It is told in the name of an install that there never was: the count of this
 * one is not touched. In the caller's transaction.
 */
export const eraseStamps = async (
  manager: EntityManager,
  { gone, kept }: Pick<ErasedRecords, 'gone' | 'kept'>,
): Promise<void> => {
  await manager.query('DELETE FROM record_stamp WHERE record_id = ANY ($1::uuid[])', [gone]);
  await manager.query('DELETE FROM share_base WHERE record_id = ANY ($1::uuid[])', [gone]);
  const erasure: Stamp = { [randomUUID()]: 1 };
  for (const [table, ids] of kept) {
    const { columns } = ({ ...emptied, ...emptiedScores } as typeof emptied)[table]!;
    const rows = (await manager.query(
      `SELECT s.record_id AS id, s.versions, s.seen, to_jsonb(t) AS row
       FROM record_stamp s JOIN "${table}" t ON t.id = s.record_id WHERE s.record_id = ANY ($1::uuid[])`,
      [ids],
    )) as (Kept & { readonly row: Readonly<Record<string, unknown>> })[];
    const now = rows.map(({ id, versions, seen, row }) => ({
      id,
      versions: { all: joinStamps([...stampsIn(versions), erasure]) },
      seen: emptiedSeen(seen, columns, row),
    }));
    await manager.query(
      `UPDATE record_stamp s SET versions = r.versions, seen = r.seen, apart = '{}'
       FROM json_to_recordset($1::json) AS r(id uuid, versions jsonb, seen jsonb) WHERE s.record_id = r.id`,
      [JSON.stringify(now)],
    );
  }
  await manager.query(
    `INSERT INTO erased_record (record_id) SELECT unnest($1::uuid[]) ON CONFLICT DO NOTHING`,
    [[...gone, ...[...kept.values()].flat()]],
  );
};

/** Which of the ids are of records that were erased: no file brings back what they said. */
export const erasedAmong = async (
  manager: EntityManager,
  ids: readonly string[],
): Promise<ReadonlySet<string>> => {
  const rows = (await manager.query(
    'SELECT record_id AS id FROM erased_record WHERE record_id = ANY ($1::uuid[])',
    [ids],
  )) as { id: string }[];
  return new Set(rows.map(({ id }) => id));
};
