import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { DataSource, type QueryRunner } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { actAs, asSystem, NobodyActs } from '../../apps/api/src/access/acting.js';
import type { Actor } from '../../apps/api/src/access/actor.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';

const guest: Actor = { kind: 'account', id: randomUUID(), name: 'Guest', role: 'partner' };
const owner: Actor = { kind: 'account', id: randomUUID(), name: 'Owner', role: 'owner' };

/** Lines of the plan of a statement on one table: it is made for every statement, and policies that ask of each other's tables make it grow. */
const LONGEST_PLAN = 500;

/** Holds the names of the schema changes, and no record. */
const NO_RECORDS = ['migration'];

/** Tables of the product's schema, from the database itself. */
const tablesIn = async (runner: QueryRunner | DataSource): Promise<string[]> => {
  const rows = (await runner.query(
    `SELECT table_name AS name FROM information_schema.tables
     WHERE table_schema = current_schema() AND table_type = 'BASE TABLE' ORDER BY table_name`,
  )) as { name: string }[];
  return rows.map(({ name }) => name).filter((name) => !NO_RECORDS.includes(name));
};

/** Tables without row-level security, or without the policy that lets the owner and the program itself in, and nobody else. */
const unguarded = async (runner: QueryRunner | DataSource): Promise<string[]> => {
  const rows = (await runner.query(
    `SELECT c.relname AS name FROM pg_class c JOIN pg_policies p
       ON p.tablename = c.relname AND p.schemaname = current_schema()
     WHERE c.relnamespace = current_schema()::regnamespace AND c.relrowsecurity
       AND p.policyname = 'door_whole' AND p.cmd = 'ALL' AND p.permissive = 'PERMISSIVE'
       AND p.qual LIKE '%door_open()%' AND p.with_check = p.qual`,
  )) as { name: string }[];
  const guarded = new Set(rows.map(({ name }) => name));
  return (await tablesIn(runner)).filter((name) => !guarded.has(name));
};

/** Views that would read with the rights of whoever made them. */
const runAsTheirMaker = async (runner: QueryRunner | DataSource): Promise<string[]> => {
  const rows = (await runner.query(
    `SELECT relname AS name FROM pg_class WHERE relnamespace = current_schema()::regnamespace AND relkind IN ('v', 'm')
       AND NOT coalesce('security_invoker=true' = ANY (reloptions), false)`,
  )) as { name: string }[];
  return rows.map(({ name }) => name);
};

describe('the door of the database', () => {
  let api: RunningApi;
  let product: DataSource;
  let records: DataSource;
  beforeAll(async () => {
    api = await startApi({ demo: true });
    product = api.served.app.get(DataSource);
    records = await recordsOf(api);
  });
  afterAll(() => api.close());

  const seen = (manager: DataSource | QueryRunner = product): Promise<{ fish: number }[]> =>
    manager.query('SELECT count(*)::int AS fish FROM fish') as Promise<{ fish: number }[]>;

  it('guards every table, and a new one without a policy is found', async () => {
    expect((await tablesIn(records)).length).toBeGreaterThan(30);
    expect(await unguarded(records)).toEqual([]);
    const runner = records.createQueryRunner();
    await runner.startTransaction();
    try {
      await runner.query('CREATE TABLE forgotten (id uuid)');
      expect(await unguarded(runner)).toEqual(['forgotten']);
      await runner.query('ALTER TABLE forgotten ENABLE ROW LEVEL SECURITY');
      await runner.query('CREATE POLICY door_whole ON forgotten USING (true)');
      expect(await unguarded(runner)).toEqual(['forgotten']);
    } finally {
      await runner.rollbackTransaction();
      await runner.release();
    }
  });

  it('has only views that run with the rights of the asker', async () => {
    expect(await runAsTheirMaker(records)).toEqual([]);
    const runner = records.createQueryRunner();
    await runner.startTransaction();
    try {
      await runner.query('CREATE VIEW every_fish AS SELECT * FROM fish');
      expect(await runAsTheirMaker(runner)).toEqual(['every_fish']);
    } finally {
      await runner.rollbackTransaction();
      await runner.release();
    }
  });

  it('is served by a role that is no superuser, bypasses nothing, owns nothing, and cannot empty a table', async () => {
    const [role] = (await asSystem('health', () =>
      product.query(
        `SELECT rolsuper OR rolbypassrls OR rolcreaterole OR rolcreatedb AS mighty, current_user AS name,
           (SELECT count(*)::int FROM pg_class c WHERE c.relowner = r.oid AND c.relnamespace = current_schema()::regnamespace) AS owned
         FROM pg_roles r WHERE rolname = current_user`,
      ),
    )) as { mighty: boolean; name: string; owned: number }[];
    expect(role).toMatchObject({ mighty: false, owned: 0 });
    const [owners] = (await records.query('SELECT current_user AS name')) as { name: string }[];
    expect(role?.name).not.toBe(owners?.name);
    for (const table of await tablesIn(records)) {
      await expect(
        asSystem('health', () => product.query(`TRUNCATE "${table}" CASCADE`)),
      ).rejects.toThrow(/permission denied/);
    }
    await expect(
      asSystem('health', () => product.query('ALTER TABLE fish DISABLE ROW LEVEL SECURITY')),
    ).rejects.toThrow(/must be owner/);
    await expect(
      asSystem('health', () => product.query(`DELETE FROM "migration"`)),
    ).rejects.toThrow(/permission denied/);
  });

  it('is signed in to as that role, on the embedded server, and not as its superuser', async () => {
    const embedded = await startApi({ embedded: true });
    try {
      const [session] = (await asSystem('health', () =>
        embedded.served.app
          .get(DataSource)
          .query(
            'SELECT session_user AS name, (SELECT rolsuper FROM pg_roles WHERE rolname = session_user) AS super',
          ),
      )) as { name: string; super: boolean }[];
      expect(session).toEqual({ name: 'linewright_product', super: false });
    } finally {
      await embedded.close();
    }
  });

  it('shows a connection that was told of nobody no row of any table, and takes none from it', async () => {
    const { url } = product.options as { url: string };
    const client = new pg.Client({ connectionString: url });
    await client.connect();
    try {
      let held = 0;
      for (const table of await tablesIn(records)) {
        const { rows } = await client.query<{ n: number }>(
          `SELECT count(*)::int AS n FROM "${table}"`,
        );
        expect([table, rows[0]?.n]).toEqual([table, 0]);
        const [all] = (await records.query(`SELECT count(*)::int AS n FROM "${table}"`)) as {
          n: number;
        }[];
        held += all?.n ?? 0;
      }
      expect(held).toBeGreaterThan(500);
      await expect(
        client.query(`INSERT INTO person (id, name) VALUES (gen_random_uuid(), 'Nobody')`),
      ).rejects.toThrow(/row-level security/);
      for (const forged of [
        '',
        'partner',
        'owners',
        'system2',
        ':',
        `Owner:${owner.id}`,
        `partner:${owner.id}`,
      ]) {
        await client.query(`SELECT set_config('linewright.actor', $1, false)`, [forged]);
        expect(
          (await client.query<{ n: number }>('SELECT count(*)::int AS n FROM fish')).rows,
        ).toEqual([{ n: 0 }]);
      }
    } finally {
      await client.end();
    }
  });

  it('needs no long plan for a statement on one table', async () => {
    const long: string[] = [];
    for (const table of await tablesIn(records))
      for (const statement of [
        `SELECT * FROM "${table}"`,
        `INSERT INTO "${table}" DEFAULT VALUES RETURNING *`,
        `DELETE FROM "${table}"`,
      ]) {
        const plan = await actAs(owner, () => product.query(`EXPLAIN ${statement}`));
        if ((plan as unknown[]).length > LONGEST_PLAN) long.push(statement);
      }
    expect(long).toEqual([]);
  });

  it('answers nobody: work that does not say for whom it is done is a fault', async () => {
    await expect(seen()).rejects.toThrow(NobodyActs);
    const [all] = await asSystem('health', () => seen());
    expect(all?.fish).toBeGreaterThan(50);
    expect(await actAs(guest, () => seen())).toEqual([{ fish: 0 }]);
    expect(await actAs(owner, () => seen())).toEqual([all]);
  });

  it('keeps no former actor on a connection, however many take turns on few connections', async () => {
    const [all] = await asSystem('health', () => seen());
    const wrong: string[] = [];
    const turns = Array.from({ length: 400 }, (_, turn) => async () => {
      const asked = turn % 3 === 0 ? guest : turn % 3 === 1 ? owner : null;
      const look = (): Promise<{ fish: number }[]> =>
        turn % 2 === 0
          ? seen()
          : product.transaction((m) => m.query('SELECT count(*)::int AS fish FROM fish'));
      const [found] = await (asked === null ? asSystem('health', look) : actAs(asked, look));
      const due = asked === guest ? 0 : all?.fish;
      if (found?.fish !== due) wrong.push(`${turn}: ${found?.fish} instead of ${due}`);
    });
    await Promise.all(turns.map((turn) => turn()));
    expect(wrong).toEqual([]);
  });

  it('tells a connection again only where none is idle that was told the same', async () => {
    const asked = vi.spyOn(pg.Client.prototype, 'query');
    try {
      for (let turn = 0; turn < 20; turn++) {
        await actAs(owner, () => product.query('SELECT 1'));
        await asSystem('health', () => product.query('SELECT 1'));
      }
      const statements = asked.mock.calls.map(([statement]) => String(statement));
      expect(statements.filter((text) => text === 'SELECT 1').length).toBe(40);
      expect(statements.filter((text) => text.includes('set_config')).length).toBeLessThan(5);
    } finally {
      asked.mockRestore();
    }
  });

  it('keeps none after a transaction that failed or was broken off', async () => {
    await expect(
      actAs(owner, () =>
        product.transaction(async (m) => {
          await m.query('SELECT 1');
          throw new Error('broken off');
        }),
      ),
    ).rejects.toThrow('broken off');
    await expect(actAs(owner, () => product.query('SELECT 1/0'))).rejects.toThrow(/zero/);
    for (let turn = 0; turn < 12; turn += 1)
      expect(await actAs(guest, () => seen())).toEqual([{ fish: 0 }]);
  });

  it('holds a transaction to the actor it was begun for', async () => {
    const runner = product.createQueryRunner();
    await actAs(guest, () => runner.startTransaction());
    try {
      expect(await asSystem('health', () => seen(runner))).toEqual([{ fish: 0 }]);
    } finally {
      await runner.rollbackTransaction();
      await runner.release();
    }
  });
});
