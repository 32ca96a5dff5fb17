import {
  type EmbeddedDatabase,
  startEmbeddedDatabase,
  type WatchOptions,
} from '@linewright/embedded-database';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { productAccess } from '../database/product-role.js';
import type { Config } from '../config/config.js';
import { dataSourceOptions } from './data-source.js';
import { dropLentViews, makeLentViews } from './lent-views.js';
import { expectNotNewer, noteVersion } from '../database/schema-version.js';

export interface OpenDatabase {
  /** Address as whoever owns the tables; the password is in it. */
  readonly ownerUrl: string;
  /** Connected as the product, which owns nothing. */
  readonly dataSource: DataSource;
  /** Does what only the owner of the tables may: take them away and make them anew. The policies do not hold it. */
  readonly asOwner: <Answer>(work: (owner: DataSource) => Promise<Answer>) => Promise<Answer>;
  /** Closes the pool, then leaves the embedded server (which stops with its last user). */
  readonly close: () => Promise<void>;
  /** Looks after the embedded server until it is closed; a server under `DATABASE_URL` is looked after by others. */
  readonly watch: (options: WatchOptions) => void;
}

/** Arbitrary but fixed: processes starting together migrate one after the other. */
const MIGRATION_LOCK = 7_040_021;

const connected = async <Answer>(
  url: string,
  work: (dataSource: DataSource) => Promise<Answer>,
): Promise<Answer> => {
  const dataSource = new DataSource(dataSourceOptions(url));
  await dataSource.initialize();
  try {
    return await work(dataSource);
  } finally {
    await dataSource.destroy();
  }
};

/** Brings the schema up to today's and hands its tables out; answers where the product connects. */
const makeReady = async (
  owner: DataSource,
  url: string,
  embedded: boolean,
  log: (line: string) => void,
): Promise<string> => {
  const runner = owner.createQueryRunner();
  try {
    await runner.query('SELECT pg_advisory_lock($1)', [MIGRATION_LOCK]);
    await expectNotNewer(owner);
    if (await owner.showMigrations()) await dropLentViews(runner);
    await owner.runMigrations({ transaction: 'each' });
    await runner.startTransaction();
    await makeLentViews(runner);
    await runner.commitTransaction();
    await noteVersion(owner);
    const product = await productAccess({ owner, url, embedded });
    if (product.told !== null) log(product.told);
    return product.url;
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
  const ownerUrl = config.databaseUrl ?? embedded?.url ?? '';
  const asOwner: OpenDatabase['asOwner'] = (work) =>
    asSystem('migration', () => connected(ownerUrl, work));
  let dataSource: DataSource | null = null;
  const close = async (): Promise<void> => {
    try {
      if (dataSource?.isInitialized === true) await dataSource.destroy();
    } finally {
      await embedded?.stop();
    }
  };
  try {
    signal?.throwIfAborted();
    const url = await asOwner((owner) => makeReady(owner, ownerUrl, embedded !== null, log));
    const product = new DataSource(dataSourceOptions(url));
    dataSource = product;
    await asSystem('migration', () => product.initialize());
    signal?.throwIfAborted();
    return {
      ownerUrl,
      dataSource: product,
      asOwner,
      close,
      watch: (options) => embedded?.watch(options),
    };
  } catch (error) {
    await close();
    throw error;
  }
};
