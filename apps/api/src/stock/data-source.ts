import { migrations } from '@linewright/migrations';
import type { DataSourceOptions } from 'typeorm';
import { entities } from './entities.js';

/** Options of the one data source: the same for the embedded server and for `DATABASE_URL`. */
export const dataSourceOptions = (url: string): DataSourceOptions => ({
  type: 'postgres',
  url,
  entities,
  migrations,
  migrationsTableName: 'migration',
  synchronize: false,
  installExtensions: false,
  uuidExtension: 'pgcrypto',
  applicationName: 'linewright',
  extra: { max: 10 },
});
