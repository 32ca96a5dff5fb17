import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import '../database/new-database.js';
import { migrations } from '@linewright/migrations';
import { actAs, asSystem } from '../../apps/api/src/access/acting.js';
import type { Actor } from '../../apps/api/src/access/actor.js';
import { Clock } from '../../apps/api/src/clock/clock.js';
import { readConfig } from '../../apps/api/src/config/config.js';
import { beginBackup } from '../../apps/api/src/backup/make-backup.js';
import { restoreBackup } from '../../apps/api/src/backup/restore-backup.js';
import { copyRecords } from '../../apps/api/src/stock/copy-in.js';
import { dataSourceOptions } from '../../apps/api/src/stock/data-source.js';
import { type OpenDatabase, openDatabase } from '../../apps/api/src/stock/open-database.js';
import { productRole } from '../../apps/api/src/database/product-role.js';
import { PhotoFiles } from '../../apps/api/src/photo-files/photo-files.js';
import { now } from '../clock.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';

const personId = randomUUID();
const owner: Actor = { kind: 'account', id: personId, name: 'Owner', role: 'owner' };
const guest: Actor = { kind: 'account', id: randomUUID(), name: 'Guest', role: 'partner' };
const FISH = 'SELECT count(*)::int AS fish FROM fish';

/** A server with users of several kinds: an embedded one, whose superuser makes them. */
describe('the door on a server', () => {
  let api: RunningApi;
  let server: DataSource;
  let dataDir = '';
  const open: OpenDatabase[] = [];
  beforeAll(async () => {
    dataDir = mkdtempSync(join(tmpdir(), 'linewright-door-'));
    api = await startApi({ signedIn: false });
    server = await recordsOf(api);
  });
  afterAll(async () => {
    for (const database of open) await database.close();
    await api.close();
    rmSync(dataDir, { recursive: true, force: true });
  });

  /** A database of its own, owned by a user with the rights named; answers its address. */
  const databaseOf = async (rights: string): Promise<string> => {
    const name = `${inject('database').name}_${randomUUID().slice(0, 8)}`;
    await server.query(`CREATE ROLE "${name}" LOGIN PASSWORD 'a+b%20c' ${rights}`);
    await server.query(`CREATE DATABASE "${name}" OWNER "${name}"`);
    const url = new URL(api.served.databaseUrl);
    url.username = name;
    url.password = encodeURIComponent('a+b%20c');
    url.pathname = `/${name}`;
    return url.href;
  };
  const opened = async (url: string): Promise<{ database: OpenDatabase; told: string[] }> => {
    const told: string[] = [];
    const config = readConfig({ DATABASE_URL: url, DATA_DIR: dataDir });
    const database = await openDatabase(config, (line) => told.push(line));
    open.push(database);
    return { database, told };
  };

  const addFish = ({ dataSource }: OpenDatabase): Promise<void> =>
    actAs(owner, () =>
      dataSource.transaction(async (m) => {
        await m.query(
          `INSERT INTO person (id, name, here, role) VALUES ($1, 'Owner', true, 'owner')`,
          [personId],
        );
        const fish = ['A-1', 'A-2'].map((tag) => ({
          id: randomUUID(),
          tag,
          personId,
          sex: 'male',
        }));
        await copyRecords(m, 'fish', 'fish', fish, 'Owner', 'imported');
      }),
    );

  const expectDoor = async ({ dataSource }: OpenDatabase): Promise<void> => {
    expect(await actAs(owner, () => dataSource.query(FISH))).toEqual([{ fish: 2 }]);
    expect(await actAs(guest, () => dataSource.query(FISH))).toEqual([{ fish: 0 }]);
    await expect(
      actAs(guest, () =>
        dataSource.query(`INSERT INTO person (id, name) VALUES (gen_random_uuid(), 'X')`),
      ),
    ).rejects.toThrow(/row-level security/);
    const { url } = dataSource.options as { url: string };
    const client = new pg.Client({ connectionString: url });
    await client.connect();
    expect((await client.query(FISH)).rows).toEqual([{ fish: 0 }]);
    await client.end();
    const history = await actAs(owner, () =>
      dataSource.query('SELECT DISTINCT by_account_id AS id FROM record_history'),
    );
    expect(history).toEqual([{ id: personId }]);
  };

  it('makes a role of its own where its user may, and takes it up', async () => {
    const url = await databaseOf('CREATEROLE');
    const { database, told } = await opened(url);
    expect(told).toEqual([]);
    const [who] = (await asSystem('health', () =>
      database.dataSource.query('SELECT current_user AS name, session_user AS signed'),
    )) as { name: string; signed: string }[];
    const name = new URL(url).pathname.slice(1);
    expect(who).toEqual({ name: productRole(name), signed: name });
    await addFish(database);
    await expectDoor(database);
    // A second start finds the role.
    await expectDoor((await opened(url)).database);
  });

  it('takes up a role that somebody else made for it', async () => {
    const url = await databaseOf('');
    const name = new URL(url).pathname.slice(1);
    await server.query(`CREATE ROLE "${productRole(name)}"`);
    await server.query(`GRANT "${productRole(name)}" TO "${name}"`);
    const { database, told } = await opened(url);
    expect(told).toEqual([]);
    await addFish(database);
    await expectDoor(database);
  });

  it('holds the owner of the tables to the policies by force where it may make no role, and says so', async () => {
    const { database, told } = await opened(await databaseOf(''));
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(/may make no role.*CREATEROLE/);
    await addFish(database);
    await expectDoor(database);
  });

  /** What PostgreSQL holds about each table and view: whom it lets in, by which policies, and whether its owner is held to them. */
  const doorsOf = ({ asOwner }: OpenDatabase): Promise<unknown> =>
    asOwner((of) =>
      of.query(
        `SELECT c.relname, c.relrowsecurity, c.relforcerowsecurity, c.reloptions,
           (SELECT array_agg(polname::text ORDER BY polname) FROM pg_policy WHERE polrelid = c.oid) AS policies,
           (SELECT array_agg((grantee = c.relowner) || ' ' || privilege_type ORDER BY 1)
              FROM aclexplode(c.relacl)) AS rights
         FROM pg_class c WHERE c.relnamespace = current_schema()::regnamespace AND c.relkind IN ('r', 'v')
         ORDER BY c.relname`,
      ),
    );

  it.each([
    ['a role of its own', 'CREATEROLE'],
    ['the owner of the tables, held by force', ''],
  ])('refuses after a restore as a fresh one does: %s', async (_, rights) => {
    const photos = new PhotoFiles(readConfig({ DATA_DIR: dataDir }), new Clock(now, 'UTC'));
    const never = new AbortController().signal;
    const { database: source } = await opened(await databaseOf(rights));
    await addFish(source);
    const made = await asSystem('backup', () =>
      beginBackup({
        ...{ dataSource: source.dataSource, photos, kind: 'shell', zone: 'UTC', folder: dataDir },
        ...{ now: () => new Date(now()), signal: never },
      }),
    );
    const { path } = (await made?.done) ?? { path: '' };
    const { database: restored } = await opened(await databaseOf(rights));
    const fresh = await doorsOf(restored);
    await restored.asOwner((dataSource) => restoreBackup({ dataSource, photos }, path, never));
    expect(await doorsOf(restored)).toEqual(fresh);
    await expectDoor(restored);
  });

  it('says where nothing but the program keeps accounts apart', async () => {
    const { told } = await opened(await databaseOf('BYPASSRLS'));
    expect(told[0]).toMatch(/bypasses row-level security/);
  });

  it('carries records of before the door through it, with the accounts that did what', async () => {
    const url = await databaseOf('CREATEROLE');
    const before = new DataSource({
      ...dataSourceOptions(url),
      driver: pg,
      migrations: migrations.slice(
        0,
        migrations.findIndex(({ name }) => name.startsWith('TheDoor')),
      ),
    });
    await before.initialize();
    await before.runMigrations();
    await before.query(`INSERT INTO keeper (id, name, here) VALUES ($1, 'Owner', true)`, [
      personId,
    ]);
    await before.query(`INSERT INTO keeper (id, name) VALUES ($1, 'Partner')`, [randomUUID()]);
    for (const tag of ['A-1', 'A-2'])
      await before.query(
        `INSERT INTO fish (id, keeper_id, tag, sex) VALUES (gen_random_uuid(), $1, $2, 'male')`,
        [personId, tag],
      );
    for (const name of ['Owner', 'Partner', 'demo scenario'])
      await before.query(
        `INSERT INTO record_history (record_kind, record_id, revision, by_name, action, changes)
         VALUES ('fish', gen_random_uuid(), 1, $1, 'recorded', '{}')`,
        [name],
      );
    await before.query(
      `INSERT INTO computation (id, kind, subject, evidence, asked_by) VALUES (gen_random_uuid(), 'k', 's', 'e', 'Owner')`,
    );
    await before.destroy();
    const { database } = await opened(url);
    const read = (sql: string): Promise<unknown> =>
      actAs(owner, () => database.dataSource.query(sql));
    expect(await read('SELECT role FROM person ORDER BY name')).toEqual([
      { role: 'owner' },
      { role: null },
    ]);
    expect(
      await read(
        'SELECT by_name AS name, by_account_id AS id FROM record_history ORDER BY sequence',
      ),
    ).toEqual([
      { name: 'Owner', id: personId },
      { name: 'Partner', id: null },
      { name: 'demo scenario', id: null },
    ]);
    expect(await read('SELECT asked_by_account_id AS id FROM computation')).toEqual([
      { id: personId },
    ]);
    expect(await read(FISH)).toEqual([{ fish: 2 }]);
    expect(await actAs(guest, () => database.dataSource.query(FISH))).toEqual([{ fish: 0 }]);
  });
});
