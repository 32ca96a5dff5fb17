import { migrations } from '@linewright/migrations';
import type { DataSourceOptions } from 'typeorm';
import { doorDriver } from '../access/door-pool.js';
import { entities } from './entities.js';

/** Options of every data source: the same for the embedded server and for `DATABASE_URL`, for the product and for the owner of the tables. */
export const dataSourceOptions = (url: string): DataSourceOptions => ({
  type: 'postgres',
  driver: doorDriver,
  url,
  entities,
  migrations,
  migrationsTableName: 'migration',
  synchronize: false,
  installExtensions: false,
  uuidExtension: 'pgcrypto',
  applicationName: 'linewright',
  // A new connection reads tables and policies before its first answer, 10 to 30 ms: whoever comes back after minutes should not wait for it.
  extra: { max: 10, idleTimeoutMillis: 5 * 60_000 },
});
