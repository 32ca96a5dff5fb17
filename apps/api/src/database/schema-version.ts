import { migrations } from '@linewright/migrations';
import type { DataSource, EntityManager } from 'typeorm';
import { PROGRAM_VERSION } from '../config/program-version.js';

/** The database cannot be served by this program; the message says what to do. */
export class DatabaseVersionError extends Error {
  readonly code = 'DATABASE_NEWER';

  constructor(message: string) {
    super(message);
    this.name = 'DatabaseVersionError';
  }
}

/** Names of the schema changes that this program knows, oldest first. */
export const knownChanges: readonly string[] = migrations.map((Migration) => new Migration().name);

/** Those of the names that this program does not know. */
export const unknownChanges = (names: readonly string[]): readonly string[] =>
  names.filter((name) => !knownChanges.includes(name));

interface Query {
  query(sql: string, parameters?: unknown[]): Promise<unknown>;
}

/** Names of the schema changes made in a database, oldest first; none in one that was never opened. */
export const changesMade = async (database: Query): Promise<readonly string[]> => {
  const [found] = (await database.query(
    `SELECT to_regclass(quote_ident(current_schema()) || '.migration') IS NOT NULL AS there`,
  )) as { there: boolean }[];
  if (found?.there !== true) return [];
  const rows = (await database.query('SELECT name FROM "migration" ORDER BY "timestamp"')) as {
    name: string;
  }[];
  return rows.map((row) => row.name);
};

/** The version that last opened the database; those before it was noted leave none. */
const lastVersion = async (database: Query): Promise<string | null> => {
  const [column] = (await database.query(
    `SELECT EXISTS (SELECT 1 FROM information_schema.columns WHERE table_schema = current_schema()
       AND table_name = 'install_state' AND column_name = 'program_version') AS there`,
  )) as { there: boolean }[];
  if (column?.there !== true) return null;
  const [row] = (await database.query(
    'SELECT program_version AS version FROM install_state WHERE id = 1',
  )) as { version: string | null }[];
  return row?.version ?? null;
};

/** @throws DatabaseVersionError when a newer program has changed the schema: this one would write what that one cannot read. */
export const expectNotNewer = async (dataSource: DataSource): Promise<void> => {
  const unknown = unknownChanges(await changesMade(dataSource));
  if (unknown.length === 0) return;
  const by = await lastVersion(dataSource);
  throw new DatabaseVersionError(
    `These records were last opened by a newer Linewright${by === null ? '' : ` (${by})`}: their schema has ` +
      `${unknown.join(', ')}, which this one (${PROGRAM_VERSION}, schema ${knownChanges.at(-1)}) does not know. ` +
      'Nothing was changed. Start the newer Linewright again, or restore a backup that this version made into another DATA_DIR.',
  );
};

/** Notes which version opened the database last. */
export const noteVersion = async (database: DataSource | EntityManager): Promise<void> => {
  await database.query(
    'UPDATE install_state SET program_version = $1 WHERE id = 1 AND program_version IS DISTINCT FROM $1',
    [PROGRAM_VERSION],
  );
};
