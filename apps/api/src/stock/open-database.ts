import {
  type EmbeddedDatabase,
  startEmbeddedDatabase,
  type WatchOptions,
} from '@linewright/embedded-database';
import { DataSource } from 'typeorm';
import type { Config } from '../config/config.js';
import { dataSourceOptions } from './data-source.js';
import { expectNotNewer, noteVersion } from '../database/schema-version.js';

export interface OpenDatabase {
  readonly url: string;
  readonly dataSource: DataSource;
  /** Closes the pool, then leaves the embedded server (which stops with its last user). */
  readonly close: () => Promise<void>;
  /** Looks after the embedded server until it is closed; a server under `DATABASE_URL` is looked after by others. */
  readonly watch: (options: WatchOptions) => void;
}

/** Arbitrary but fixed: processes starting together migrate one after the other. */
const MIGRATION_LOCK = 7_040_021;

const migrate = async (dataSource: DataSource): Promise<void> => {
  const runner = dataSource.createQueryRunner();
  try {
    await runner.query('SELECT pg_advisory_lock($1)', [MIGRATION_LOCK]);
    await expectNotNewer(dataSource);
    await dataSource.runMigrations({ transaction: 'each' });
    await noteVersion(dataSource);
  } finally {
    await runner.query('SELECT pg_advisory_unlock($1)', [MIGRATION_LOCK]);
    await runner.release();
  }
};

/** Opens the database of the configuration, embedded or under `DATABASE_URL`, migrated to today's schema; one that a newer program wrote is refused. */
export const openDatabase = async (
  config: Config,
  log: (line: string) => void = () => {},
  signal?: AbortSignal,
): Promise<OpenDatabase> => {
  const embedded: EmbeddedDatabase | null =
    config.databaseUrl === undefined
      ? await startEmbeddedDatabase({ dataDir: config.dataDir, log, ...(signal && { signal }) })
      : null;
  const url = config.databaseUrl ?? embedded?.url ?? '';
  const dataSource = new DataSource(dataSourceOptions(url));
  const close = async (): Promise<void> => {
    try {
      if (dataSource.isInitialized) await dataSource.destroy();
    } finally {
      await embedded?.stop();
    }
  };
  try {
    signal?.throwIfAborted();
    await dataSource.initialize();
    await migrate(dataSource);
    signal?.throwIfAborted();
    return { url, dataSource, close, watch: (options) => embedded?.watch(options) };
  } catch (error) {
    await close();
    throw error;
  }
};
