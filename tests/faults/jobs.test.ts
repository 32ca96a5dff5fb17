import type { ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from '../api/harness.js';
import { holdComputations } from '../api/held-computation.js';
import { killNow, signIn, startSecond, until } from './second-process.js';

const LONG = { LONG_FROM_FISH: '50' };
const BEGIN = `mutation ($input: BeginImportInput!) { beginImport(input: $input) { computation { id } } }`;
const CARRIERS = `query ($fishId: ID!) { fishCarriers(fishId: $fishId) {
  loci { locusId genotypes { genotype probability } waiting { id state } } } }`;

interface Locus {
  locusId: string;
  genotypes: { probability: number }[];
  waiting: { id: string; state: string } | null;
}

/** Sib by sib, fifty young a spawn, each with one score. */
const lineCsv = (rows: number): string => {
  const lines = ['tag,sire,dam,sex,spread', 'F-1,,,male,150', 'F-2,,,female,150'];
  for (let spawn = 0, pair = 'F-1,F-2'; lines.length <= rows; spawn++) {
    for (let i = 0; i < 50; i++)
      lines.push(`S${spawn}-${i},${pair},${i % 2 ? 'female' : 'male'},${140 + i}`);
    pair = `S${spawn}-0,S${spawn}-1`;
  }
  return `${lines.join('\n')}\n`;
};

describe('a process killed in the middle of a long computation', () => {
  let api: RunningApi;
  let db: pg.Client;
  const children: ChildProcess[] = [];
  const text = lineCsv(6_000);
  const fishCount = text.trim().split('\n').length - 1;

  beforeAll(async () => {
    api = await startApi({ environment: LONG });
    db = new pg.Client({ connectionString: api.served.databaseUrl });
    await db.connect();
  });
  afterAll(async () => {
    for (const child of children) child.kill('SIGKILL');
    await db?.end();
    await api?.close();
  });

  /** A second server, signed in; the first one takes no part in the work before it is asked about it. */
  const second = async () => {
    const { child, url } = await startSecond(api.served.databaseUrl, LONG);
    children.push(child);
    const cookie = await signIn(url);
    const ask = async <Data>(query: string, variables: object): Promise<Data> => {
      const response = await fetch(`${url}/graphql`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', cookie },
        body: JSON.stringify({ query, variables }),
      });
      return ((await response.json()) as { data: Data }).data;
    };
    return { child, ask };
  };
  const one = async <Row>(sql: string, values: unknown[] = []): Promise<Row> =>
    (await db.query(sql, values)).rows[0] as Row;
  const countOf = async (table: string): Promise<number> =>
    (await one<{ n: number }>(`SELECT count(*)::int AS n FROM "${table}"`)).n;
  const computation = (id: string) =>
    one<{ state: string; answered: boolean }>(
      `SELECT state, result IS NOT NULL AS answered FROM computation WHERE id = $1`,
      [id],
    );
  /** Half a minute without a word of it has to pass before another process takes it up. */
  const letTimePass = (id: string) =>
    db.query(`UPDATE computation SET seen_at = now() - interval '1 minute' WHERE id = $1`, [id]);
  const endedIn = async (id: string): Promise<string> => {
    let state = '';
    await until(async () => {
      const { computation: told } = await api.graphql<{ computation: { state: string } }>(
        'query ($id: ID!) { computation(id: $id) { state } }',
        { id },
      );
      state = told.state;
      return !['QUEUED', 'RUNNING'].includes(state);
    }, 100);
    return state;
  };

  it('leaves nothing of a file half taken in, and another process takes it in whole, once', async () => {
    const { child, ask } = await second();
    const holder = new pg.Client({ connectionString: api.served.databaseUrl });
    await holder.connect();
    await holder.query('BEGIN');
    // The fish are written by then; their scores have to wait.
    await holder.query('LOCK TABLE score IN SHARE MODE');
    const input = { id: randomUUID(), purpose: 'TAKE', fileName: 'line.csv', text };
    const { beginImport } = await ask<{ beginImport: { computation: { id: string } } }>(BEGIN, {
      input,
    });
    const { id } = beginImport.computation;
    await until(
      async () =>
        (
          await one<{ waits: boolean }>(
            `SELECT EXISTS (SELECT 1 FROM pg_locks WHERE relation = 'score'::regclass AND NOT granted) AS waits`,
          )
        ).waits,
    );
    expect((await computation(id)).state).toBe('running');
    await killNow(child);
    await holder.query('ROLLBACK');
    await holder.end();
    await until(
      async () =>
        (
          await one<{ n: number }>(
            `SELECT count(*)::int AS n FROM pg_stat_activity WHERE application_name = 'linewright import' AND datname = current_database()`,
          )
        ).n === 0,
    );
    for (const table of ['fish', 'spawn', 'line', 'trait_definition', 'score', 'record_history'])
      expect([table, await countOf(table)]).toEqual([table, 0]);
    expect(await computation(id)).toEqual({ state: 'running', answered: false });

    await letTimePass(id);
    expect(await endedIn(id)).toBe('DONE');
    expect(await countOf('fish')).toBe(fishCount);
    expect(await countOf('score')).toBe(fishCount);
    const { importRun } = await api.graphql<{ importRun: { result: { fish: number } } }>(
      `query ($id: ID!) { importRun(id: $id) { result { fish } } }`,
      { id: input.id },
    );
    expect(importRun.result.fish).toBe(fishCount);
  });

  it('stores no half answer of carrier chances, and another process works them out', async () => {
    await db.query(
      `INSERT INTO class_count (id, spawn_id, locus_ids, phenotype, number, counted_on)
       SELECT gen_random_uuid(), id, '{dt}', c.phenotype, c.number, '2026-05-01'
       FROM spawn, (VALUES ('single tail', 25), ('double tail', 8)) AS c(phenotype, number)`,
    );
    const { id: fishId } = await one<{ id: string }>(`SELECT id FROM fish WHERE tag = 'S0-0'`);
    // Its answer has to wait, however soon it is found.
    const held = await holdComputations(api.served.databaseUrl, `NEW.state = 'done'`);
    const { child, ask } = await second();
    const asked = await ask<{ fishCarriers: { loci: Locus[] } }>(CARRIERS, { fishId });
    const id = asked.fishCarriers.loci.find((l) => l.locusId === 'dt')?.waiting?.id ?? '';
    await until(held.waits);
    await killNow(child);
    await held.cut();
    await held.release();
    expect(await computation(id)).toEqual({ state: 'running', answered: false });

    await letTimePass(id);
    expect(await endedIn(id)).toBe('DONE');
    const { fishCarriers } = await api.graphql<{ fishCarriers: { loci: Locus[] } }>(CARRIERS, {
      fishId,
    });
    const dt = fishCarriers.loci.find((l) => l.locusId === 'dt');
    expect(dt?.waiting).toBeNull();
    expect(dt?.genotypes.reduce((sum, g) => sum + g.probability, 0)).toBeCloseTo(1, 9);
  });
});
