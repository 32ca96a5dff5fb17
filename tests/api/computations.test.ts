import { randomUUID } from 'node:crypto';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { PASSWORD, type RunningApi, startApi, recordsOf } from './harness.js';
import { newRecords } from '../new-records.js';
import { holdComputations } from './held-computation.js';

const CARRIERS = `query ($fishId: ID!) { fishCarriers(fishId: $fishId) { loci { locusId impossible
  genotypes { genotype probability } waiting { id state progress } } } }`;
const COMPUTATION = `query ($id: ID!) { computation(id: $id) { state progress errorCode subject } }`;

interface Waiting {
  id: string;
  state: string;
  progress: number;
}

interface Locus {
  locusId: string;
  genotypes: { genotype: string; probability: number }[];
  waiting: Waiting | null;
}

const dtOf = async (api: RunningApi, fishId: string): Promise<Locus> => {
  const { fishCarriers } = await api.graphql<{ fishCarriers: { loci: Locus[] } }>(CARRIERS, {
    fishId,
  });
  const dt = fishCarriers.loci.find((one) => one.locusId === 'dt');
  if (dt === undefined) throw new Error('Double tail is not listed.');
  return dt;
};

const stateOf = async (api: RunningApi, id: string) =>
  (await api.graphql<{ computation: Waiting & { errorCode: string | null } }>(COMPUTATION, { id }))
    .computation;

const until = async <T>(ask: () => Promise<T>, fits: (value: T) => boolean): Promise<T> => {
  const end = performance.now() + 200_000;
  for (;;) {
    const value = await ask();
    if (fits(value)) return value;
    if (performance.now() > end) throw new Error(`Waited in vain: ${JSON.stringify(value)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
};

const joined = async (
  first: RunningApi,
  environment: Record<string, string>,
): Promise<RunningApi> => {
  const api = await startApi({
    signedIn: false,
    environment: { ...environment, DATABASE_URL: first.served.databaseUrl },
  });
  await api.graphql(`mutation ($password: String!) { signIn(password: $password) { signedIn } }`, {
    password: PASSWORD,
  });
  return api;
};

/**
 * Lines of `pairs` spawns a generation and 33 fish a spawn, every spawn counted. With one pair a line is sib by sib and its
 * posterior exact; eight pairs that cross tie so many fish together that it has to be sampled.
 */
const bigStock = async (
  api: RunningApi,
  shape: { fish: number; lines: number; pairs: number },
): Promise<{ last: string; broods: number }> => {
  const db = await recordsOf(api);
  const [person] = (await db.query('SELECT id FROM person')) as { id: string }[];
  const rows: { id: string; tag: string; spawn: string | null }[] = [];
  const spawns: { id: string; tag: string; sire: string; dam: string }[] = [];
  let lines: string[][] = Array.from({ length: shape.lines }, (_, l) =>
    Array.from({ length: 2 * shape.pairs }, (__, i) => {
      const founder = { id: randomUUID(), tag: `F${l}-${i}`, spawn: null };
      rows.push(founder);
      return founder.id;
    }),
  );
  while (rows.length < shape.fish) {
    lines = lines.map((pool) => {
      const next: string[] = [];
      for (let pair = 0; pair < shape.pairs; pair++) {
        const sire = pool[2 * pair] ?? '';
        const dam = pool[(2 * pair + (shape.pairs > 1 ? 3 : 1)) % pool.length] ?? '';
        const spawn = { id: randomUUID(), tag: `S${spawns.length}`, sire, dam };
        spawns.push(spawn);
        for (let i = 0; i < 33; i++) {
          const young = { id: randomUUID(), tag: `${spawn.tag}-${i}`, spawn: spawn.id };
          rows.push(young);
          if (i < 2) next.push(young.id);
        }
      }
      return next;
    });
  }
  await db.transaction(async (m) => {
    await m.query(
      `INSERT INTO spawn (id, person_id, tag, sire_id, dam_id) SELECT id, $2, tag, sire, dam FROM jsonb_to_recordset($1::jsonb) AS s(id uuid, tag text, sire uuid, dam uuid)`,
      [JSON.stringify(spawns), person?.id],
    );
    await m.query(
      `INSERT INTO fish (id, person_id, tag, sex, spawn_id) SELECT id, $2, tag, 'unsexed', spawn FROM jsonb_to_recordset($1::jsonb) AS f(id uuid, tag text, spawn uuid)`,
      [JSON.stringify(rows), person?.id],
    );
    await m.query(
      `INSERT INTO class_count (id, spawn_id, locus_ids, phenotype, number, counted_on)
       SELECT gen_random_uuid(), id, '{dt}', c.phenotype, c.number, '2026-05-01'
       FROM spawn, (VALUES ('single tail', 25), ('double tail', 8)) AS c(phenotype, number)`,
    );
  });
  return { last: rows.at(-1)?.id ?? '', broods: spawns.length };
};

describe('long computations', () => {
  let api: RunningApi;
  let records: Records;
  let sire: string;
  let child: string;
  let sister: string;

  beforeAll(async () => {
    api = await startApi({ environment: { LONG_FROM_FISH: '1' } });
    records = recordsOn(api);
    sire = await records.fish('A-1', 'MALE');
    const dam = await records.fish('A-2', 'FEMALE');
    const spawn = await records.spawn('A26-01', sire, dam);
    const [one, two, three] = await records.young(spawn, 3);
    child = two?.id ?? '';
    sister = three?.id ?? '';
    await records.setting({ locusId: 'dt', misScoring: 0 });
    for (const id of [sire, dam, child]) await records.seen(id, 'dt', 'single');
    await records.seen(one?.id ?? '', 'dt', 'double');
  });
  afterAll(() => api.close());

  it('are begun by the first who asks, and their answer is kept for that state of the records', async () => {
    const first = await dtOf(api, child);
    expect(first.genotypes).toEqual([]);
    expect(first.waiting).not.toBeNull();
    const again = await dtOf(api, child);
    if (again.waiting !== null) expect(again.waiting.id).toBe(first.waiting?.id);
    await until(
      () => stateOf(api, first.waiting?.id ?? ''),
      (one) => one.state === 'DONE',
    );
    const done = await dtOf(api, child);
    expect(done.waiting).toBeNull();
    expect(done.genotypes.find((one) => one.genotype === 'Dt/dt')?.probability).toBeCloseTo(
      2 / 3,
      8,
    );
    // Any other fish of the stock is in the same answer.
    expect((await dtOf(api, sire)).waiting).toBeNull();
  });

  it('a second process reads the result, and a changed record makes both ask anew', async () => {
    const second = await joined(api, { LONG_FROM_FISH: '1' });
    try {
      expect((await dtOf(second, child)).genotypes).toHaveLength(2);
      const tester = await records.fish('T-1', 'FEMALE');
      await records.seen(tester, 'dt', 'double');
      const test = await records.spawn('T26-01', child, tester);
      await records.counted(test, 'dt', { 'single tail': 6 });
      // The other process has the old answer stored, and does not serve it.
      const anew = await dtOf(second, child);
      expect(anew.genotypes).toEqual([]);
      await until(
        () => stateOf(second, anew.waiting?.id ?? ''),
        (one) => one.state === 'DONE',
      );
      const done = await dtOf(api, child);
      expect(done.genotypes.find((one) => one.genotype === 'Dt/dt')?.probability).toBeCloseTo(
        2 / 66,
        8,
      );
    } finally {
      await second.close();
    }
  });

  it('a record more is taken in at once where the model is ready, and says what another process works out', async () => {
    // The answer before this may have been worked out by the other process: with one fish more it is this one's, which is alone now.
    await records.seen(await records.fish('B-1', 'MALE'), 'dt', 'single');
    await until(
      () => dtOf(api, child),
      (one) => one.waiting === null,
    );
    const asked = async (one: RunningApi) =>
      Object.fromEntries(
        (await dtOf(one, sister)).genotypes.map((each) => [each.genotype, each.probability]),
      );
    // Looked at only now: no double tail, so a carrier two times in three.
    const before = await asked(api);
    expect(before['dt/dt']).toBeCloseTo(1 / 4, 8);
    await records.seen(sister, 'dt', 'single');
    const quick = await dtOf(api, sister);
    expect(quick.waiting).toBeNull();
    expect(quick.genotypes.find((one) => one.genotype === 'Dt/dt')?.probability).toBeCloseTo(
      2 / 3,
      8,
    );
    const second = await joined(api, { LONG_FROM_FISH: '1' });
    try {
      const there = await dtOf(second, sister);
      expect(there.waiting).not.toBeNull();
      await until(
        () => stateOf(second, there.waiting?.id ?? ''),
        (one) => one.state === 'DONE',
      );
      const [here, elsewhere] = [await asked(api), await asked(second)];
      for (const [genotype, chance] of Object.entries(here))
        expect(elsewhere[genotype]).toBeCloseTo(chance, 8);
    } finally {
      await second.close();
    }
  });

  it('a record at another locus leaves the answers of this one standing', async () => {
    await records.seen(child, 'bl', 'royal blue');
    expect((await dtOf(api, child)).waiting).toBeNull();
  });

  it('one that is not there is a clear error, and one that is done is not begun again', async () => {
    const gone = await api.send(COMPUTATION, { id: randomUUID() });
    expect(gone.errors?.[0]?.extensions.code).toBe('NOT_FOUND');
    const { computations } = await api.graphql<{
      computations: { edges: { node: Waiting }[]; totalCount: number };
    }>('{ computations { edges { node { id state progress } } totalCount } }');
    expect(computations.edges).toHaveLength(computations.totalCount);
    const done = computations.edges.map(({ node }) => node).find((one) => one.state === 'DONE');
    const again = await api.send(`mutation ($id: ID!) { restartComputation(id: $id) { id } }`, {
      id: done?.id,
    });
    expect(again.errors?.[0]?.extensions.code).toBe('VALIDATION');
  });
});

describe('two traits of ten thousand fish', () => {
  let api: RunningApi;
  afterAll(() => api.close());

  it('are stopped on the way, stay stopped, and are begun again when asked', async () => {
    api = await startApi();
    await bigStock(api, { fish: 10_000, lines: 1, pairs: 8 });
    const make = newRecords(api);
    const traits = [
      await make.createTrait({ key: 'spread', name: 'Spread', kind: 'MEASURED' }),
      await make.createTrait({ key: 'length', name: 'Length', kind: 'MEASURED' }),
    ];
    // Scores by the tag alone, so that each run of this test has the same.
    await (
      await recordsOf(api)
    ).query(
      `INSERT INTO score (id, fish_id, trait_id, trait_version, value, scored_on, scorer)
       SELECT gen_random_uuid(), f.id, t.id, 1, 100 + abs(hashtext(f.tag || t.key)) % 97 + abs(hashtext(split_part(f.tag, '-', 1))) % 31, '2026-05-01', 'x'
       FROM fish f, trait_definition t WHERE t.id = ANY($1)`,
      [traits],
    );
    const asked = async (): Promise<Waiting | null> =>
      (
        await api.graphql<{ traitsTogether: { waiting: Waiting | null } }>(
          `query ($a: ID!, $b: ID!) { traitsTogether(traitId: $a, otherId: $b) { verdict waiting { id state progress } } }`,
          { a: traits[0], b: traits[1] },
        )
      ).traitsTogether.waiting;
    const id = (await asked())!.id;
    const onItsWay = await until(
      () => stateOf(api, id),
      ({ state, progress }) => state !== 'QUEUED' && progress > 0,
    );
    expect(onItsWay.state).toBe('RUNNING');
    expect(onItsWay.progress).toBeLessThan(1);
    await api.graphql(`mutation ($id: ID!) { cancelComputation(id: $id) { id } }`, { id });
    const stopped = await until(
      () => stateOf(api, id),
      ({ state }) => state !== 'RUNNING',
    );
    expect(stopped).toMatchObject({ state: 'CANCELLED', errorCode: 'JOB_CANCELLED' });
    expect(await asked()).toMatchObject({ id, state: 'CANCELLED' });
    const { restartComputation } = await api.graphql<{ restartComputation: Waiting }>(
      `mutation ($id: ID!) { restartComputation(id: $id) { id state } }`,
      { id },
    );
    expect(restartComputation.id).not.toBe(id);
    await until(
      () => stateOf(api, restartComputation.id),
      ({ state, progress }) => state === 'RUNNING' && progress > 0,
    );
  });
});

describe('a posterior over ten thousand fish', () => {
  let api: RunningApi;
  afterEach(() => api.close());

  it('is stopped from another process, stays stopped, and is begun again when asked', async () => {
    api = await startApi();
    const { last } = await bigStock(api, { fish: 10_000, lines: 1, pairs: 8 });
    const second = await joined(api, {});
    try {
      const asked = await dtOf(api, last);
      const id = asked.waiting?.id ?? '';
      const running = (one: Waiting): boolean => one.state === 'RUNNING';
      await until(() => stateOf(second, id), running);
      await second.graphql(`mutation ($id: ID!) { cancelComputation(id: $id) { id } }`, { id });
      const stopped = await until(
        () => stateOf(api, id),
        (one) => !running(one),
      );
      expect(stopped).toMatchObject({ state: 'CANCELLED', errorCode: 'JOB_CANCELLED' });
      expect((await dtOf(api, last)).waiting).toMatchObject({ id, state: 'CANCELLED' });
      const { restartComputation } = await api.graphql<{ restartComputation: Waiting }>(
        `mutation ($id: ID!) { restartComputation(id: $id) { id state } }`,
        { id },
      );
      expect(restartComputation.id).not.toBe(id);
      // The server stops in the middle of it: what runs is let go of and waits for the next start.
      await until(() => stateOf(second, restartComputation.id), running);
    } finally {
      await second.close();
    }
  });

  it('goes on with progress while the server answers other questions', async () => {
    api = await startApi();
    const { last, broods } = await bigStock(api, { fish: 10_000, lines: 8, pairs: 1 });
    expect(broods).toBe(304);
    const held = await holdComputations(
      api.served.databaseUrl,
      'NEW.progress > 0 AND NEW.progress < 1',
    );
    const { waiting } = await dtOf(api, last);
    await until(held.waits, (waits) => waits);
    const seen: number[] = [];
    // A process busy with the work itself would not answer before its end.
    for (let asked = 0; asked < 4; asked++) {
      const { state, progress } = await stateOf(api, waiting?.id ?? '');
      expect(state).toBe('RUNNING');
      seen.push(progress);
    }
    await held.release();
    const done = await until(
      async () => {
        const state = await stateOf(api, waiting?.id ?? '');
        seen.push(state.progress);
        return state;
      },
      (one) => !['QUEUED', 'RUNNING'].includes(one.state),
    );
    expect(done.state).toBe('DONE');
    expect(done.progress).toBe(1);
    expect(seen).toEqual(seen.toSorted((a, b) => a - b));
    const answer = await dtOf(api, last);
    expect(answer.waiting).toBeNull();
    expect(answer.genotypes.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(1, 6);
    // One look more, which also takes the fish out of the count of its brood: both go into the model that is ready.
    await recordsOn(api).seen(last, 'dt', 'double');
    const more = await dtOf(api, last);
    expect(more.waiting).toBeNull();
    expect(more.genotypes.find((one) => one.genotype === 'dt/dt')?.probability).toBeGreaterThan(
      0.9,
    );
  });
});
