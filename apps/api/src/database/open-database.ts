import { join } from 'node:path';
import { type EmbeddedDatabase, startEmbeddedDatabase } from '@linewright/embedded-database';
import { DataSource } from 'typeorm';
import type { Config } from '../config.js';
import { dataSourceOptions } from './data-source.js';

export interface OpenDatabase {
  readonly url: string;
  readonly dataSource: DataSource;
  /** Closes the pool, then leaves the embedded server (which stops with its last user). */
  readonly close: () => Promise<void>;
}

/** Arbitrary but fixed: processes starting together migrate one after the other. */
const MIGRATION_LOCK = 7_040_021;

const migrate = async (dataSource: DataSource): Promise<void> => {
  const runner = dataSource.createQueryRunner();
  try {
    await runner.query('SELECT pg_advisory_lock($1)', [MIGRATION_LOCK]);
    await dataSource.runMigrations({ transaction: 'each' });
  } finally {
    await runner.query('SELECT pg_advisory_unlock($1)', [MIGRATION_LOCK]);
    await runner.release();
  }
};

/**
 * Opens the database of the configuration, embedded or under `DATABASE_URL`, migrated to today's schema. With `onGone` the
 * embedded server is looked after: started again when it is gone, and told when that cannot be done.
 */
export const openDatabase = async (
  config: Config,
  log: (line: string) => void = () => {},
  onGone?: (error: unknown) => void,
): Promise<OpenDatabase> => {
  const embedded: EmbeddedDatabase | null =
    config.databaseUrl === undefined
      ? await startEmbeddedDatabase({ dataDir: join(config.dataDir), log })
      : null;
  const url = config.databaseUrl ?? embedded?.url ?? '';
  try {
    const dataSource = await new DataSource(dataSourceOptions(url)).initialize();
    await migrate(dataSource);
    if (onGone !== undefined)
      embedded?.watch({
        onLost: () => log('The database server is gone: starting it again.'),
        onBack: () => log('The database server is back.'),
        onGivenUp: onGone,
      });
    return {
      url,
      dataSource,
      close: async () => {
        if (dataSource.isInitialized) await dataSource.destroy();
        await embedded?.stop();
      },
    };
  } catch (error) {
    await embedded?.stop();
    throw error;
  }
};
