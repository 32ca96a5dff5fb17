import { randomBytes } from 'node:crypto';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type EmbeddedDatabase, startEmbeddedDatabase } from '@linewright/embedded-database';
import pg from 'pg';
import type { TestProject } from 'vitest/node';
import { markRun, RUN, sweepRuns } from './left-behind.js';
import type { RunDatabase } from './new-database.js';

/** What is written here is thrown away with the run: nothing waits for the disk. */
const FORGETFUL = ['fsync = off', 'synchronous_commit = off', 'full_page_writes = off'];

const ownServer = async (folder: string): Promise<EmbeddedDatabase> => {
  const first = await startEmbeddedDatabase({ dataDir: folder });
  const client = new pg.Client({ connectionString: first.url });
  await client.connect();
  for (const setting of [...FORGETFUL, 'max_connections = 300'])
    await client.query(`ALTER SYSTEM SET ${setting}`);
  await client.end();
  // The number of connections is settled at a start.
  await first.stop();
  return startEmbeddedDatabase({ dataDir: folder });
};

const dropAll = async ({ server, name }: RunDatabase): Promise<void> => {
  const client = new pg.Client({ connectionString: server });
  await client.connect();
  const { rows } = await client.query<{ datname: string }>(
    'SELECT datname FROM pg_database WHERE starts_with(datname, $1)',
    [name],
  );
  for (const { datname } of rows) {
    await client.query(`ALTER DATABASE ${datname} IS_TEMPLATE false`);
    await client.query(`DROP DATABASE ${datname} WITH (FORCE)`);
  }
  const roles = await client.query<{ rolname: string }>(
    'SELECT rolname FROM pg_roles WHERE starts_with(rolname, $1)',
    [name],
  );
  for (const { rolname } of roles.rows) await client.query(`DROP ROLE "${rolname}"`);
  await client.end();
};

interface Running {
  readonly database: RunDatabase;
  users: number;
  readonly stop: () => Promise<void>;
}

const start = async (): Promise<Running> => {
  await sweepRuns();
  const folder = mkdtempSync(join(tmpdir(), RUN));
  markRun(folder);
  // Started as root, the database server runs as someone else and has to reach its folder.
  chmodSync(folder, 0o755);
  const given = process.env['TEST_DATABASE_URL'];
  const embedded = given === undefined ? await ownServer(folder) : null;
  const name = `linewright_test_${randomBytes(4).toString('hex')}`;
  const database = { server: given ?? embedded?.url ?? '', name, folder };
  return {
    database,
    users: 0,
    stop: async () => {
      if (embedded === null) await dropAll(database);
      await embedded?.stop();
      rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    },
  };
};

/** Vitest loads this file once a project: what the projects share is kept with the process. */
const shared = globalThis as { linewrightTestDatabase?: Promise<Running> | undefined };

/**
 * One PostgreSQL server for the whole run, whatever projects it has: embedded, or that of `TEST_DATABASE_URL`.
 * The last project to end stops it.
 */
export const setup = async (project: TestProject): Promise<() => Promise<void>> => {
  const running = await (shared.linewrightTestDatabase ??= start());
  running.users += 1;
  project.provide('database', running.database);
  return async () => {
    running.users -= 1;
    if (running.users > 0) return;
    shared.linewrightTestDatabase = undefined;
    await running.stop();
  };
};
