import 'reflect-metadata';
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { DataSource } from 'typeorm';
import pg from 'pg';
import { readTable } from './csv-table.js';
import { matchColumns } from './import-columns.js';
import { readFish } from './read-fish.js';
import { FishCheck } from './check-fish.js';
import { dataSourceOptions } from '../database/data-source.js';
import { ShareService } from '../sharing/share.service.js';
import { ExchangeService } from './exchange.service.js';

const base = 'postgres://lw@127.0.0.1:5515/';
const names = ['x_helper_a', 'x_helper_b', 'x_helper_c'];
const dbs: DataSource[] = [];
const keepers: { id: string; name: string }[] = [];
beforeAll(async () => {
  const c = new pg.Client(`${base}postgres`);
  await c.connect();
  for (const n of names) {
    await c.query(`DROP DATABASE IF EXISTS ${n} WITH (FORCE)`);
    await c.query(`CREATE DATABASE ${n}`);
    const d = new DataSource(dataSourceOptions(base + n));
    await d.initialize();
    await d.runMigrations();
    const k = { id: randomUUID(), name: `K${n}` };
    await d.query(`INSERT INTO keeper(id,name,here) VALUES ($1,$2,true)`, [k.id, k.name]);
    dbs.push(d);
    keepers.push(k);
  }
  await c.end();
}, 60000);
afterAll(async () => {
  for (const d of dbs) await d.destroy();
  const c = new pg.Client(`${base}postgres`);
  await c.connect();
  for (const n of names) await c.query(`DROP DATABASE IF EXISTS ${n} WITH (FORCE)`);
  await c.end();
});

const own = `tag,sire,dam,sex,hatch_date,line,length,marble
D,,,female,2024-01-01,R,38.5,1
S,,,male,2024-01-01,R,40,0
A,S,D,male,2024-06-01,R,,
B,S,D,female,2024-06-01,R,41,
C,S,,,2024-07-01,,,
E,A,B,uncertain,2025-01-01,R,12.25,1
`;
it('100k', async () => {
  const x = new ExchangeService(dbs[2]!);
  const rows = ['tag,sire,dam,sex,hatch_date,line,length'];
  const N = 100000;
  for (let i = 0; i < N; i++) {
    const g = Math.floor(i / 1000);
    const p = (g - 1) * 1000 + 2 * Math.floor((i % 1000) / 20);
    const date = new Date(Date.UTC(1930, 0, 1) + g * 200 * 86400000).toISOString().slice(0, 10);
    rows.push(
      `F${i},${g ? 'F' + p : ''},${g ? 'F' + (p + 1) : ''},${i % 2 ? 'female' : 'male'},${date},L${i % 3},${(i % 70) / 2}`,
    );
  }
  const text = rows.join('\n') + '\n';
  let t = performance.now();
  const lap = (w: string) => { console.log(w, Math.round(performance.now() - t)); t = performance.now(); };
  const table = readTable(text); lap('table');
  const m = matchColumns(table, [], []); lap('match');
  const rd = readFish(table, m.columns); lap('read');
  new FishCheck(rd.fish, m.columns, new Map()); lap('check');
  const orig = dbs[2]!.driver.constructor; void orig;
  const { PostgresQueryRunner } = await import('typeorm/driver/postgres/PostgresQueryRunner.js') as any;
  const q = PostgresQueryRunner.prototype.query;
  const sums: Record<string, number> = {};
  PostgresQueryRunner.prototype.query = async function (sql: string, ...r: unknown[]) { const s = performance.now(); const v = await q.call(this, sql, ...r); const k = sql.trim().slice(0, 40); sums[k] = (sums[k] ?? 0) + performance.now() - s; return v; };
  lap('x');
  const plan = await x.plan(text, [], keepers[2]!);
  console.log('preview ms', performance.now() - t, plan.problems.slice(0, 3));
  t = performance.now();
  console.log(
    await x.confirm('big.csv', text, [], keepers[2]!),
    'confirm ms',
    performance.now() - t,
  );
  console.log(sums); t = performance.now();
  const out = [...(await x.exportPedigree(keepers[2]!))].join('');
  console.log('export ms', performance.now() - t);
  expect(new Set(out.split('\n'))).toEqual(new Set(text.split('\n')));
}, 120000);
