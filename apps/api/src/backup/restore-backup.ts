import { pipeline } from 'node:stream/promises';
import { migrations } from '@linewright/migrations';
import type { ClientBase } from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import type { QueryRunner } from 'typeorm';
import { forceOnOwner, isForcedOnOwner } from '../database/product-role.js';
import { dropLentViews, makeLentViews } from '../stock/lent-views.js';
import { noteVersion } from '../database/schema-version.js';
import { RequestError } from '../errors/request-error.js';
import {
  carriedTables,
  columnsOf,
  leftOut,
  quoted,
  setSequences,
  withoutRecords,
} from './carried-tables.js';
import { type Manifest, type TablePart, tableFile } from './manifest.js';
import { type OpenBackup, openBackup, verifyBackup } from './read-backup.js';
import { RestoredPhotos } from './restore-photos.js';
import type { BackupSource } from './write-backup.js';

/** A restored install_state would be counted up by the fish that come after it. */
const LAST = 'install_state';

const expectEmpty = async (runner: QueryRunner, tables: readonly string[]): Promise<void> => {
  const holding: string[] = [];
  for (const table of tables.filter((name) => !withoutRecords.includes(name))) {
    const [row] = (await runner.query(
      `SELECT EXISTS (SELECT 1 FROM ${quoted(table)}) AS holds`,
    )) as { holds: boolean }[];
    if (row?.holds === true) holding.push(table);
  }
  if (holding.length === 0) return;
  const [found] = (await runner.query(
    'SELECT (SELECT count(*)::int FROM fish) AS fish, (SELECT demo FROM install_state WHERE id = 1) AS demo',
  )) as { fish: number; demo: boolean }[];
  throw new RequestError(
    'DATABASE_NOT_EMPTY',
    `There are records here already (${found?.demo === true ? 'the demo, ' : ''}${found?.fish ?? 0} fish; in ${holding.join(', ')}). ` +
      'A backup goes only into an empty install, so that nothing is mixed up or overwritten. Nothing was changed. ' +
      'Stop the program and move its DATA_DIR away, or give another folder: DATA_DIR=restored npm run restore -- FILE',
    { fish: found?.fish ?? 0 },
  );
};

/** Takes the tables and the views of them away, so that they can be made as they were when the backup was. */
const dropTables = async (runner: QueryRunner, tables: readonly string[]): Promise<void> => {
  const ours = [...tables, ...Object.keys(leftOut).filter((table) => table !== 'migration')];
  const functions = (await runner.query(
    `SELECT DISTINCT tgfoid::regprocedure::text AS name FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid
     WHERE NOT t.tgisinternal AND c.relnamespace = current_schema()::regnamespace AND c.relname = ANY($1::text[])`,
    [ours],
  )) as { name: string }[];
  const views = (await runner.query(
    `SELECT relname AS name FROM pg_class WHERE relnamespace = current_schema()::regnamespace AND relkind = 'v'`,
  )) as { name: string }[];
  if (views.length > 0)
    await runner.query(`DROP VIEW ${views.map(({ name }) => quoted(name)).join(', ')}`);
  await runner.query(`DROP TABLE ${ours.map(quoted).join(', ')}`);
  for (const { name } of functions) await runner.query(`DROP FUNCTION ${name}`);
  await runner.query('DELETE FROM "migration"');
};

/** Makes the schema changes that the names pass, oldest first. */
const makeChanges = async (
  runner: QueryRunner,
  wanted: (name: string) => boolean,
): Promise<void> => {
  for (const Migration of migrations) {
    const change = new Migration();
    if (!wanted(change.name)) continue;
    await change.up(runner);
    await runner.query('INSERT INTO "migration" ("timestamp", "name") VALUES ($1, $2)', [
      Number(change.name.slice(-13)),
      change.name,
    ]);
  }
};

const unlike = (part: TablePart, what: string): RequestError =>
  new RequestError(
    'BACKUP_DAMAGED',
    `The backup cannot be restored: its table ${part.table} ${what}. Nothing was changed. Take another backup.`,
  );

const fill = async (
  runner: QueryRunner,
  backup: OpenBackup,
  part: TablePart,
  signal: AbortSignal,
): Promise<void> => {
  const columns = await columnsOf({ query: (sql, given) => runner.query(sql, given) }, part.table);
  const known = new Set(columns);
  if (part.table in leftOut || columns.length === 0)
    throw unlike(part, 'is none of those that the schema it names has');
  if (part.columns.length !== known.size || !part.columns.every((column) => known.has(column)))
    throw unlike(part, 'has not the columns of the schema it names');
  const client = (await runner.connect()) as ClientBase;
  const list = part.columns.map(quoted).join(', ');
  const sink = client.query(copyFrom(`COPY ${quoted(part.table)} (${list}) FROM STDIN`));
  await pipeline(await backup.part(tableFile(part.table)), sink, { signal });
  if (sink.rowCount !== part.rows)
    throw unlike(part, `has ${sink.rowCount} rows, not ${part.rows}`);
};

const refill = async (
  runner: QueryRunner,
  backup: OpenBackup,
  signal: AbortSignal,
): Promise<void> => {
  const { changes, tables } = backup.manifest;
  await makeChanges(runner, (name) => changes.includes(name));
  await runner.query(`DELETE FROM ${quoted(LAST)}`);
  const inTurn = [...tables].sort((a, b) => Number(a.table === LAST) - Number(b.table === LAST));
  for (const part of inTurn) await fill(runner, backup, part, signal);
  for (const { table } of tables) await setSequences(runner, table);
  // What rows point to is checked here, and not after the schema has gone on.
  await runner.query('SET CONSTRAINTS ALL IMMEDIATE');
  await makeChanges(runner, (name) => !changes.includes(name));
};

/** What PostgreSQL refuses of rows that were no table's: the person hears of the backup, not of a statement. */
const toldOf = (error: unknown): unknown => {
  const code = (error as { code?: unknown } | null)?.code;
  if (error instanceof RequestError || typeof code !== 'string' || !/^2[23]/.test(code))
    return error;
  return new RequestError(
    'BACKUP_DAMAGED',
    `The backup cannot be restored: its rows do not fit together (${(error as Error).message}). Nothing was changed. Take another backup.`,
  );
};

/**
 * Puts a backup into an empty install: looked at whole before anything is written, then all in one transaction, or nothing. A backup
 * of an older schema is restored in that schema, which then goes on to today's.
 *
 * @throws RequestError `BACKUP_DAMAGED`, `BACKUP_NEWER`, `DATABASE_NOT_EMPTY`
 */
export const restoreBackup = async (
  { dataSource, photos }: BackupSource,
  file: string,
  signal: AbortSignal,
): Promise<Manifest> => {
  await verifyBackup(file, signal);
  const backup = await openBackup(file);
  const pictures = new RestoredPhotos(photos);
  const runner = dataSource.createQueryRunner();
  try {
    await runner.connect();
    await runner.startTransaction();
    const tables = carriedTables(dataSource);
    await runner.query('LOCK TABLE install_state IN ACCESS EXCLUSIVE MODE');
    await expectEmpty(runner, tables);
    const forced = await isForcedOnOwner(runner);
    await dropLentViews(runner);
    await dropTables(runner, tables);
    await refill(runner, backup, signal);
    await makeLentViews(runner);
    if (forced) await forceOnOwner(runner);
    // Whoever restores it may sit in another house.
    await runner.query('UPDATE install_state SET home_network = false WHERE id = 1');
    await noteVersion(runner.manager);
    await pictures.stage(backup, signal);
    await pictures.place(backup);
    signal.throwIfAborted();
    await runner.commitTransaction();
    return backup.manifest;
  } catch (error) {
    if (runner.isTransactionActive) await runner.rollbackTransaction().catch(() => undefined);
    await pictures.takeBack();
    throw toldOf(error);
  } finally {
    backup.close();
    await runner.release();
  }
};
