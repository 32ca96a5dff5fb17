import { randomUUID } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD, type RunningApi, startApi, recordsOf } from './harness.js';

const RUN = `id purpose fileName preview { ready rowCount newFish problemCount columns { header role } }
  result { fish spawns lines scores traits unchanged } computation { id state progress errorCode errorMessage }`;
const BEGIN = `mutation ($input: BeginImportInput!) { beginImport(input: $input) { ${RUN} } }`;
const ONE = `query ($id: ID!) { importRun(id: $id) { ${RUN} } }`;
const CANCEL = `mutation ($id: ID!) { cancelComputation(id: $id) { state } }`;
const AGAIN = `mutation ($id: ID!) { restartComputation(id: $id) { id state } }`;

interface Run {
  id: string;
  preview: { ready: boolean; rowCount: number; newFish: number; problemCount: number } | null;
  result: Record<string, number> | null;
  computation: {
    id: string;
    state: string;
    progress: number;
    errorCode: string | null;
    errorMessage: string | null;
  } | null;
}

const csv = (rows: number, more = ''): string =>
  [
    'tag,sire,dam,sex,hatch_date,line,spread',
    'S,,,male,2024-01-01,R,150',
    'D,,,female,2024-01-01,R,160',
    ...Array.from({ length: rows - 2 }, (_, i) => `Y-${i},S,D,,2024-06-01,R,${140 + (i % 40)}`),
    more,
  ].join('\n');

const ended = (run: Run): boolean =>
  run.computation === null || !['QUEUED', 'RUNNING'].includes(run.computation.state);

describe('large pedigree files', () => {
  let api: RunningApi;
  let db: DataSource;

  beforeAll(async () => {
    api = await startApi({ environment: { LONG_FROM_FISH: '30' } });
    db = await recordsOf(api);
  });
  afterAll(() => api.close());

  const begin = async (
    purpose: 'LOOK' | 'TAKE',
    text: string,
    id: string = randomUUID(),
    columns: object[] | null = null,
  ): Promise<Run> =>
    (
      await api.graphql<{ beginImport: Run }>(BEGIN, {
        input: { id, purpose, fileName: 'stock.csv', text, columns },
      })
    ).beginImport;
  const runOf = async (id: string, from = api): Promise<Run> =>
    (await from.graphql<{ importRun: Run }>(ONE, { id })).importRun;
  const until = async (id: string, fits: (run: Run) => boolean, from = api): Promise<Run> => {
    const end = performance.now() + 200_000;
    for (;;) {
      const run = await runOf(id, from);
      if (fits(run)) return run;
      if (performance.now() > end) throw new Error(`Waited in vain: ${JSON.stringify(run)}`);
      await new Promise((resolve) => setTimeout(resolve, 30));
    }
  };
  const count = async (table: string): Promise<number> => {
    const [row] = (await db.query(`SELECT count(*)::int AS n FROM "${table}"`)) as { n: number }[];
    return row?.n ?? -1;
  };

  it('are answered at once while they are small, and refused where an answer would keep one waiting', async () => {
    const look = await begin('LOOK', csv(20));
    expect(look).toMatchObject({ computation: null, preview: { ready: true, newFish: 20 } });
    const refused = await api.send(
      `mutation ($text: String!) { confirmImport(fileName: "f.csv", text: $text, columns: []) { fish } }`,
      { text: csv(40) },
    );
    expect(refused.errors?.[0]?.extensions.code).toBe('IMPORT_LONG');
    expect(await count('fish')).toBe(0);
  });

  it('are looked at by a long computation, problems and all', async () => {
    const asked = await begin('LOOK', csv(400, 'Z,nobody,,boy,,,\n'));
    expect(asked).toMatchObject({ preview: null, result: null });
    const seen = await until(asked.id, ended);
    expect(seen.computation).toMatchObject({ state: 'DONE', progress: 1 });
    expect(seen.preview).toMatchObject({ ready: false, rowCount: 401, problemCount: 2 });
    expect(await count('fish')).toBe(0);
  });

  it('that have problems leave nothing and say why', async () => {
    const asked = await begin('TAKE', csv(60, 'Z,nobody,,,,,\n'));
    const failed = await until(asked.id, ended);
    expect(failed.computation).toMatchObject({ state: 'FAILED', errorCode: 'IMPORT_INVALID' });
    expect(failed.computation?.errorMessage).toContain('"nobody"');
    expect(failed.result).toBeNull();
    expect(await count('fish')).toBe(0);
  });

  it('are stopped before anything is kept, stay stopped, and are begun again whole', async () => {
    // Another transaction keeps the import from its last step for as long as the stop takes.
    const holder = db.createQueryRunner();
    await holder.startTransaction();
    await holder.query('SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE');
    const asked = await begin('TAKE', csv(200));
    const computation = asked.computation?.id ?? '';
    await until(asked.id, (run) => run.computation?.state === 'RUNNING');
    await api.graphql(CANCEL, { id: computation });
    const stopped = await until(asked.id, ended);
    expect(stopped.computation).toMatchObject({ state: 'CANCELLED', errorCode: 'JOB_CANCELLED' });
    await holder.rollbackTransaction();
    await holder.release();
    expect(await count('fish')).toBe(0);

    await api.graphql(AGAIN, { id: computation });
    const done = await until(asked.id, ended);
    expect(done.result).toEqual({
      fish: 200,
      spawns: 1,
      lines: 1,
      scores: 200,
      traits: 1,
      unchanged: 0,
    });
    expect(await count('fish')).toBe(200);
    expect(await count('score')).toBe(200);
    // Each record tells of itself once: 200 fish, 200 scores, a spawn, a line, a trait.
    expect(await count('record_history')).toBe(403);
    const [kept] = (await db.query('SELECT body FROM import_run WHERE id = $1', [asked.id])) as {
      body: Buffer | null;
    }[];
    expect(kept).toEqual({ body: null });
  });

  it('sent twice are taken in once, and another process tells what came out', async () => {
    const id = randomUUID();
    const text = csv(300);
    await Promise.all([begin('TAKE', text, id), begin('TAKE', text, id)]);
    const second = await startApi({
      signedIn: false,
      environment: { DATABASE_URL: api.served.databaseUrl, LONG_FROM_FISH: '30' },
    });
    try {
      await second.graphql(`mutation ($p: String!) { signIn(password: $p) { signedIn } }`, {
        p: PASSWORD,
      });
      const done = await until(id, ended, second);
      expect(done.result).toMatchObject({ fish: 100, unchanged: 200, scores: 100 });
      const { importRuns } = await second.graphql<{
        importRuns: { edges: { node: Run }[]; totalCount: number };
      }>(`{ importRuns { edges { node { ${RUN} } } totalCount } }`);
      expect(importRuns.edges).toHaveLength(importRuns.totalCount);
      expect(importRuns.edges[0]?.node).toMatchObject({ id, result: { fish: 100 } });
    } finally {
      await second.close();
    }
    expect(await count('fish')).toBe(300);
  });

  it('keep letters that COPY has its own use for', async () => {
    const text = `${csv(40)}"T\\N\\t1","S","D",,2024-06-01,R,1\n"\\N",,,,,,2\n"two\nlines",,,,,,3\n`;
    const asked = await begin('TAKE', text);
    expect((await until(asked.id, ended)).result).toMatchObject({ fish: 3 });
    const tags = (await db.query(`SELECT tag FROM fish WHERE tag ~ '[\\\\\\n]' ORDER BY tag`)) as {
      tag: string;
    }[];
    expect(tags.map(({ tag }) => tag)).toEqual(['T\\N\\t1', '\\N', 'two\nlines'].sort());
  });
});
