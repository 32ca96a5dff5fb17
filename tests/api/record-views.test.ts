import { randomUUID } from 'node:crypto';
import { DataSource, type QueryRunner } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { actAs, asSystem } from '../../apps/api/src/access/acting.js';
import type { Actor } from '../../apps/api/src/access/actor.js';
import { isInUse } from '../../apps/api/src/stock/fish-place.js';
import { FishRow } from '../../apps/api/src/stock/rows/fish.entity.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';

interface ViewShape {
  readonly table: string;
  readonly meaning: string;
}

/** The views that the schema has to hold, from the entities: each table that knows withdrawal, and the words that say more. */
const wanted = ({ entityMetadatas }: DataSource): Map<string, ViewShape> => {
  const standing = entityMetadatas
    .filter(({ columns }) => columns.some(({ databaseName }) => databaseName === 'withdrawn_at'))
    .map(({ tableName: table }): [string, ViewShape] => [
      `standing_${table}`,
      { table, meaning: `SELECT * FROM "${table}" WHERE withdrawn_at IS NULL` },
    ]);
  return new Map([
    ...standing,
    [
      'fish_in_use',
      {
        table: 'fish',
        meaning: `SELECT * FROM fish WHERE withdrawn_at IS NULL AND (disposition IN ('keeper', 'hold')
          OR (disposition = 'placed' AND swims_with_id IS NOT NULL))`,
      },
    ],
    [
      'spawn_under_way',
      {
        table: 'spawn',
        meaning: `SELECT * FROM spawn s WHERE s.withdrawn_at IS NULL AND NOT s.failed AND NOT EXISTS (
          SELECT 1 FROM spawn_event e WHERE e.spawn_id = s.id AND e.withdrawn_at IS NULL AND e.kind IN ('finished', 'failed'))`,
      },
    ],
    [
      'score_in_force',
      {
        table: 'score',
        meaning: `SELECT * FROM score s WHERE s.withdrawn_at IS NULL AND NOT EXISTS (
          SELECT 1 FROM score c WHERE c.corrects_id = s.id AND c.withdrawn_at IS NULL)`,
      },
    ],
  ]);
};

const namesIn = async (runner: QueryRunner | DataSource): Promise<string[]> => {
  const rows = (await runner.query(
    `SELECT relname AS name FROM pg_class WHERE relnamespace = current_schema()::regnamespace AND relkind IN ('v', 'm') ORDER BY 1`,
  )) as { name: string }[];
  return rows.map(({ name }) => name);
};

const columnsOf = async (runner: QueryRunner, relation: string): Promise<string[]> => {
  const rows = (await runner.query(
    `SELECT attname AS name FROM pg_attribute WHERE attrelid = to_regclass($1) AND attnum > 0 AND NOT attisdropped ORDER BY attnum`,
    [relation],
  )) as { name: string }[];
  return rows.map(({ name }) => name);
};

const definition = async (runner: QueryRunner, name: string): Promise<string> => {
  const [row] = (await runner.query('SELECT pg_get_viewdef($1::regclass) AS text', [name])) as {
    text: string;
  }[];
  return row?.text ?? '';
};

/** Views that are not what the entities and the words say: missing, unknown, without a column of their table, or of another meaning. */
const drifted = async (runner: QueryRunner, dataSource: DataSource): Promise<string[]> => {
  const views = wanted(dataSource);
  const there = await namesIn(runner);
  const found = there.filter((name) => !views.has(name)).map((name) => `${name} is unknown`);
  for (const [name, { table, meaning }] of views) {
    if (!there.includes(name)) {
      found.push(`${name} is missing`);
      continue;
    }
    const columns = await columnsOf(runner, name);
    const missing = (await columnsOf(runner, table)).filter((column) => !columns.includes(column));
    if (missing.length > 0) {
      found.push(`${name} has no ${missing.join(', ')}: make it anew in the same migration`);
      continue;
    }
    await runner.query(`CREATE TEMPORARY VIEW as_it_should_be AS ${meaning}`);
    if ((await definition(runner, name)) !== (await definition(runner, 'as_it_should_be')))
      found.push(`${name} means something else`);
    await runner.query('DROP VIEW as_it_should_be');
  }
  return found;
};

describe('views of the records', () => {
  let api: RunningApi;
  let product: DataSource;
  let records: DataSource;
  beforeAll(async () => {
    api = await startApi({ demo: true });
    product = api.served.app.get(DataSource);
    records = await recordsOf(api);
  });
  afterAll(() => api.close());

  const undone = async (work: (runner: QueryRunner) => Promise<void>): Promise<void> => {
    const runner = records.createQueryRunner();
    await runner.startTransaction();
    try {
      await work(runner);
    } finally {
      await runner.rollbackTransaction();
      await runner.release();
    }
  };

  it('are what the entities and the words say, each with every column of its table', () =>
    undone(async (runner) => {
      expect(wanted(records).size).toBeGreaterThan(20);
      expect(await drifted(runner, records)).toEqual([]);
    }));

  it('are found out when they are not', () =>
    undone(async (runner) => {
      await runner.query('ALTER TABLE phenotype ADD shade text');
      await runner.query('DROP VIEW standing_photo');
      await runner.query('CREATE VIEW loose AS SELECT * FROM fish');
      await runner.query(
        `CREATE OR REPLACE VIEW fish_in_use AS SELECT * FROM fish WHERE disposition = 'keeper'`,
      );
      expect((await drifted(runner, records)).sort()).toEqual([
        'fish_in_use means something else',
        'loose is unknown',
        'standing_phenotype has no shade: make it anew in the same migration',
        'standing_photo is missing',
      ]);
    }));

  it('say of every fish what the rule for a loaded row says', () =>
    undone(async (runner) => {
      const [fish] = (await runner.query(
        `SELECT id FROM fish WHERE withdrawn_at IS NULL ORDER BY id LIMIT 1`,
      )) as { id: string }[];
      const [owner] = (await runner.query('SELECT id FROM person WHERE here')) as { id: string }[];
      const dispositions = await runner.query(`SELECT DISTINCT disposition AS name FROM fish`);
      const names = new Set((dispositions as { name: string }[]).map(({ name }) => name));
      for (const one of ['unsorted', 'keeper', 'hold', 'placed', 'culled', 'died', 'elsewhere'])
        names.add(one);
      const told: boolean[] = [];
      for (const disposition of names)
        for (const swimsWith of [owner?.id ?? '', null])
          for (const withdrawn of [null, '2026-01-02T03:04:05Z']) {
            await runner.query(
              'UPDATE fish SET disposition = $2, swims_with_id = $3, withdrawn_at = $4 WHERE id = $1',
              [fish?.id, disposition, swimsWith, withdrawn],
            );
            const row = await runner.manager.findOneByOrFail(FishRow, { id: fish?.id ?? '' });
            const found = (await runner.query('SELECT 1 FROM fish_in_use WHERE id = $1', [
              fish?.id,
            ])) as object[];
            expect([disposition, swimsWith, withdrawn, found.length === 1]).toEqual([
              ...[disposition, swimsWith, withdrawn],
              isInUse(row),
            ]);
            told.push(isInUse(row));
          }
      expect(told).toContain(true);
      expect(told).toContain(false);
    }));

  it('show a lesser account what it was lent and nothing else, and a connection of nobody nothing', async () => {
    const guest: Actor = { kind: 'account', id: randomUUID(), name: 'Guest', role: 'partner' };
    const idsIn = async (view: string): Promise<string[]> => {
      const rows = (await product.query(`SELECT id FROM "${view}" ORDER BY id`)) as {
        id: string;
      }[];
      return rows.map(({ id }) => id);
    };
    const [line] = (await records.query(
      'SELECT line_id AS id FROM fish_in_use WHERE line_id IS NOT NULL GROUP BY line_id ORDER BY count(*) DESC LIMIT 1',
    )) as { id: string }[];
    const mine = (await records.query('SELECT id FROM fish_in_use WHERE line_id = $1 ORDER BY id', [
      line?.id,
    ])) as { id: string }[];
    const all = await asSystem('health', () => idsIn('fish_in_use'));
    expect(mine.length).toBeGreaterThan(0);
    expect(all.length).toBeGreaterThan(mine.length);
    expect(await actAs(guest, () => idsIn('fish_in_use'))).toEqual([]);
    await asSystem('demo', () =>
      product.query(
        `INSERT INTO person (id, name, here, role) VALUES ($1, 'Guest', false, 'partner')`,
        [guest.id],
      ),
    );
    await asSystem('demo', () =>
      product.query('INSERT INTO line_grant (account_id, line_id) VALUES ($1, $2)', [
        guest.id,
        line?.id,
      ]),
    );
    expect(await actAs(guest, () => idsIn('fish_in_use'))).toEqual(mine.map(({ id }) => id));
    expect(await actAs(guest, () => idsIn('standing_line'))).toEqual([line?.id]);
    const ofFish = `fish_id IN (SELECT id FROM fish WHERE line_id = $1)`;
    const ofSpawn = `spawn_id IN (SELECT id FROM spawn WHERE line_id = $1)`;
    /** Who may look at a line sees this of it; the rest is lent part by part. */
    const seen: Readonly<Record<string, string>> = {
      standing_fish: 'line_id = $1',
      standing_line: 'id = $1',
      standing_spawn: 'line_id = $1',
      spawn_under_way: 'line_id = $1',
      standing_spawn_event: ofSpawn,
      standing_spawn_count: ofSpawn,
      standing_spawn_loss: ofSpawn,
      standing_class_count: ofSpawn,
      standing_genotype: ofFish,
      standing_phenotype: ofFish,
    };
    for (const view of wanted(records).keys()) {
      if (view === 'fish_in_use') continue;
      const due = (await records.query(
        `SELECT id FROM "${view}" WHERE ${seen[view] ?? '$1::uuid IS NULL'} ORDER BY id`,
        [line?.id],
      )) as { id: string }[];
      expect([view, await actAs(guest, () => idsIn(view))]).toEqual([
        view,
        due.map(({ id }) => id),
      ]);
    }
  });
});
