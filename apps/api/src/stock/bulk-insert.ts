import type { EntityManager } from 'typeorm';
import type { RecordKind } from '../database/record-kind.js';

/** A new row in the entity's own field names; what is left out takes the table's default. */
export type NewRecord = Readonly<Record<string, unknown>> & { readonly id: string };

/** Rows a statement: large enough to be quick, small enough that no single parameter grows past some tens of megabytes. */
const BATCH = 5_000;
const untold = new Set(['id', 'revision', 'createdAt', 'updatedAt', 'withdrawnAt']);

export const columnName = (field: string): string =>
  field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

const columnsOf = (row: NewRecord): string =>
  Object.keys(row)
    .map((field) => `"${columnName(field)}"`)
    .join(', ');

const asColumns = (row: NewRecord): Record<string, unknown> =>
  Object.fromEntries(Object.entries(row).map(([field, value]) => [columnName(field), value]));

/** An empty row of the table: its bare name would be taken for a built-in type where there is one, as for "line". */
export const rowType = (table: string): string => `(SELECT t FROM "${table}" t LIMIT 0)`;

/** What the history tells of a new record: every field that holds something. */
export const firstChanges = (row: NewRecord): ToldChange['changes'] =>
  Object.fromEntries(
    Object.entries(row)
      .filter(([field, value]) => !untold.has(field) && value !== null && value !== undefined)
      .map(([field, after]) => [field, { before: null, after }]),
  );

export interface ToldChange {
  readonly id: string;
  readonly revision: number;
  readonly changes: Readonly<Record<string, { before: unknown; after: unknown }>>;
}

/** History lines for many records at once, in the caller's transaction. */
export const tellMany = async (
  manager: EntityManager,
  kind: RecordKind,
  told: readonly ToldChange[],
  by: string,
  action: string,
): Promise<void> => {
  for (let start = 0; start < told.length; start += BATCH) {
    await manager.query(
      `INSERT INTO record_history (record_kind, record_id, revision, by_name, action, changes)
       SELECT $1, r.id, r.revision, $2, $3, r.changes
       FROM json_to_recordset($4::json) AS r(id uuid, revision integer, changes jsonb)`,
      [kind, by, action, JSON.stringify(told.slice(start, start + BATCH))],
    );
  }
};

/**
 * Inserts many rows of one table and tells each in the history, in the caller's transaction. All rows carry the same
 * fields. One statement takes thousands of rows, so that a hundred thousand take seconds.
 */
export const insertRecords = async (
  manager: EntityManager,
  table: string,
  kind: RecordKind,
  rows: readonly NewRecord[],
  by: string,
  action: string,
): Promise<void> => {
  const first = rows[0];
  if (first === undefined) return;
  const columns = columnsOf(first);
  for (let start = 0; start < rows.length; start += BATCH) {
    const batch = rows.slice(start, start + BATCH).map(asColumns);
    await manager.query(
      `INSERT INTO "${table}" (${columns})
       SELECT ${columns} FROM json_populate_recordset(${rowType(table)}, $1::json)`,
      [JSON.stringify(batch)],
    );
  }
  const told = rows.map((row) => ({ id: row.id, revision: 1, changes: firstChanges(row) }));
  await tellMany(manager, kind, told, by, action);
};

/** Replaces the given fields of many rows, raising each row's revision by one. The caller tells the history. */
export const updateRecords = async (
  manager: EntityManager,
  table: string,
  rows: readonly NewRecord[],
): Promise<void> => {
  const first = rows[0];
  if (first === undefined) return;
  const sets = Object.keys(first)
    .filter((field) => field !== 'id')
    .map((field) => `"${columnName(field)}" = r."${columnName(field)}"`)
    .join(', ');
  for (let start = 0; start < rows.length; start += BATCH) {
    const batch = rows.slice(start, start + BATCH).map(asColumns);
    await manager.query(
      `UPDATE "${table}" t SET ${sets}, revision = t.revision + 1, updated_at = now()
       FROM json_populate_recordset(${rowType(table)}, $1::json) r WHERE t.id = r.id`,
      [JSON.stringify(batch)],
    );
  }
};
