import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';
import { noteProgress, toldOf } from './told-progress.js';

const LIST = `query ($input: PairingInput!, $sort: PairingSortField!, $direction: SortDirection!, $first: Int!) {
  pairingCandidates(input: $input, sort: $sort, direction: $direction, first: $first) {
    totalCount listedCount unsexedCount awayCount maleCount femaleCount waiting { id state progress }
    edges { node { sire { tag } dam { tag } inbreedingCoefficient inbreedingBasis worth { points likeBest } reasons { code text }
      warnings { code severity } } } } }`;
const COMPUTATION = `query ($id: ID!) { computation(id: $id) { kind state progress errorMessage } }`;

interface Waiting {
  id: string;
  state: string;
  progress: number;
}
interface List {
  totalCount: number;
  listedCount: number;
  maleCount: number;
  femaleCount: number;
  waiting: Waiting | null;
  edges: {
    node: {
      worth: { points: number };
      inbreedingCoefficient: number;
      inbreedingBasis: string;
      warnings: { severity: string }[];
    };
  }[];
}
interface Choice {
  input: object;
  sort: string;
  direction: string;
}

const listOf = async (api: RunningApi, choice: Choice): Promise<List> =>
  (await api.graphql<{ pairingCandidates: List }>(LIST, { first: 200, ...choice }))
    .pairingCandidates;

const ended = async (
  api: RunningApi,
  id: string,
): Promise<{ state: string; kind: string; seen: number[]; errorMessage: string | null }> => {
  const seen: number[] = [];
  const end = performance.now() + 200_000;
  for (;;) {
    const { computation } = await api.graphql<{
      computation: Waiting & { kind: string; errorMessage: string | null };
    }>(COMPUTATION, { id });
    const { state, progress, kind } = computation;
    seen.push(progress);
    if (state !== 'QUEUED' && state !== 'RUNNING')
      return { state, kind, seen, errorMessage: computation.errorMessage };
    if (performance.now() > end) throw new Error(`Waited in vain: ${state} ${progress}`);
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
};

/**
 * A line of `broods` spawns, each with as many males as females: of fish said to be unrelated, of bought sibs whose parents nobody
 * knows, and of both; every third fish has genotypes.
 */
const fill = async (api: RunningApi, code: string, broods: number, sibs: number) => {
  const lineId = await newRecords(api).createLine({ code, name: code });
  const db = await recordsOf(api);
  const [person] = (await db.query('SELECT id FROM person')) as { id: string }[];
  const fish: { id: string; tag: string; sex: string; spawn: string | null; told: boolean }[] = [];
  const spawns: { id: string; tag: string; sire: string | null; dam: string | null }[] = [];
  const one = (sex: 'male' | 'female', spawn: string | null, told = false): string => {
    const id = randomUUID();
    fish.push({ id, tag: `${code}-${fish.length}`, sex, spawn, told });
    return id;
  };
  const males = [one('male', null, true), one('male', null)];
  const females = [one('female', null, true), one('female', null)];
  for (let k = 0; k < broods; k++) {
    const bought = k % 4 === 1;
    const spawn = {
      id: randomUUID(),
      tag: `${code}-S${k}`,
      sire: bought ? null : males[(7 * k) % males.length]!,
      dam: bought ? null : females[(3 * k) % females.length]!,
    };
    spawns.push(spawn);
    for (let i = 0; i < sibs; i++) {
      males.push(one('male', spawn.id));
      females.push(one('female', spawn.id));
    }
  }
  await db.query(
    `INSERT INTO spawn (id, person_id, tag, sire_id, dam_id) SELECT id, $2, tag, NULL, NULL
     FROM jsonb_to_recordset($1::jsonb) AS s(id uuid, tag text)`,
    [JSON.stringify(spawns), person?.id],
  );
  await db.query(
    `INSERT INTO fish (id, person_id, swims_with_id, tag, sex, spawn_id, line_id, disposition, declared_unrelated)
     SELECT id, $2, $2::uuid, tag, sex, spawn, $3, 'keeper', CASE WHEN told THEN true END
     FROM jsonb_to_recordset($1::jsonb) AS f(id uuid, tag text, sex text, spawn uuid, told boolean)`,
    [JSON.stringify(fish), person?.id, lineId],
  );
  await db.query(
    `UPDATE spawn SET sire_id = s.sire, dam_id = s.dam
     FROM jsonb_to_recordset($1::jsonb) AS s(id uuid, sire uuid, dam uuid) WHERE s.id = spawn.id`,
    [JSON.stringify(spawns)],
  );
  const genotypes = fish.flatMap(({ id }, i) =>
    i % 3 > 0
      ? []
      : [
          { id, locus: 'm', genotype: ['M/M', 'M/m', 'm/m'][(i / 3) % 3] },
          { id, locus: 'al', genotype: ['Al/Al', 'Al/al'][(i / 3) % 2] },
        ],
  );
  await db.query(
    `INSERT INTO genotype (id, fish_id, locus_id, genotype, basis)
     SELECT gen_random_uuid(), id, locus, genotype, 'laboratory'
     FROM jsonb_to_recordset($1::jsonb) AS g(id uuid, locus text, genotype text)`,
    [JSON.stringify(genotypes)],
  );
  return { lineId, males: males.length, females: females.length };
};

describe('the list of pairs of a large stock', () => {
  let long: RunningApi;
  let short: RunningApi;
  beforeAll(async () => {
    long = await startApi({ environment: { LONG_FROM_FISH: '20' } });
    short = await startApi({
      signedIn: false,
      environment: { LONG_FROM_FISH: '100000', DATABASE_URL: long.served.databaseUrl },
    });
    await short.graphql(
      `mutation ($password: String!) { signIn(password: $password) { signedIn } }`,
      { password: PASSWORD },
    );
  });
  afterAll(async () => {
    await short.close();
    await long.close();
  });

  it('as a long computation answers what is answered at once, whatever is asked and sorted by', async () => {
    const { lineId } = await fill(long, 'A', 5, 2);
    const lineIds = [lineId];
    const choices: Choice[] = [
      { input: { lineIds }, sort: 'WORTH', direction: 'DESC' },
      {
        input: { lineIds, includeDiscouraged: true, wantClasses: ['m:melano'] },
        sort: 'WORTH',
        direction: 'ASC',
      },
      { input: { lineIds, maximumInbreeding: 0.125 }, sort: 'INBREEDING', direction: 'ASC' },
      { input: { lineIds, linesOfPair: 'WITHIN_FIRST' }, sort: 'DAM', direction: 'DESC' },
    ];
    for (const choice of choices) {
      let answer = await listOf(long, choice);
      const kinds: string[] = [];
      while (answer.waiting !== null) {
        expect(answer.edges).toEqual([]);
        const { state, kind, seen } = await ended(long, answer.waiting.id);
        expect([state, seen.at(-1)]).toEqual(['DONE', 1]);
        kinds.push(kind);
        answer = await listOf(long, choice);
      }
      // Looks that are wanted go by what fish may carry, which is worked out first.
      expect(kinds.filter((kind) => kind !== 'carriers')).toEqual(['pairs']);
      const atOnce = await listOf(short, choice);
      expect(atOnce.waiting).toBeNull();
      expect(atOnce.edges.length).toBeGreaterThan(10);
      expect(answer).toEqual(atOnce);
    }
    const [one] = choices;
    // Nobody said what the line is for: all are worth the same, and F decides.
    const nodes = (await listOf(long, one!)).edges.map(({ node }) => node);
    expect(new Set(nodes.map(({ worth }) => worth.points))).toEqual(new Set([0]));
    // What must not be paired now stands last, in the same order.
    const isStopped = ({ warnings }: (typeof nodes)[number]) =>
      warnings.some(({ severity }) => severity === 'stop');
    expect(nodes.map(isStopped)).toEqual(
      nodes.map(isStopped).toSorted((a, b) => Number(a) - Number(b)),
    );
    const found = nodes
      .filter((node) => !isStopped(node))
      .map(({ inbreedingCoefficient }) => inbreedingCoefficient);
    expect(found.length).toBeGreaterThan(10);
    expect(new Set(found).size).toBeGreaterThan(2);
    found.slice(1).forEach((f, k) => expect(f).toBeGreaterThanOrEqual(found[k]! - 1e-9));
  });

  it('shows how far it is, can be stopped and begun again, and is answered by any process', async () => {
    const { lineId, males, females } = await fill(long, 'B', 600, 4);
    const choice: Choice = {
      input: { lineIds: [lineId], includeDiscouraged: true },
      sort: 'WORTH',
      direction: 'DESC',
    };
    // So many pairs are a long computation for every process, whatever it takes for a large stock.
    const { waiting } = await listOf(short, choice);
    const id = waiting?.id ?? '';
    await short.graphql(`mutation ($id: ID!) { cancelComputation(id: $id) { id } }`, { id });
    const { state: stoppedAs, errorMessage: why } = await ended(long, id);
    expect(`${stoppedAs} ${why ?? ''}`).toMatch(/^CANCELLED/);
    const stopped = await listOf(long, choice);
    expect(stopped.waiting).toMatchObject({ id, state: 'CANCELLED' });
    expect(stopped.edges).toEqual([]);
    await noteProgress(long);
    const { restartComputation } = await long.graphql<{ restartComputation: Waiting }>(
      `mutation ($id: ID!) { restartComputation(id: $id) { id } }`,
      { id },
    );
    const { state, seen, errorMessage } = await ended(short, restartComputation.id);
    expect(`${state} ${errorMessage ?? ''}`).toBe('DONE ');
    expect(seen).toEqual(seen.toSorted((a, b) => a - b));
    const told = await toldOf(long, restartComputation.id);
    expect(told.some((share) => share > 0 && share < 1)).toBe(true);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    for (const api of [long, short]) {
      const answer = await listOf(api, choice);
      expect(answer).toMatchObject({
        waiting: null,
        maleCount: males,
        femaleCount: females,
        totalCount: males * females,
        listedCount: 250_000,
      });
      expect(answer.edges).toHaveLength(200);
    }
  }, 600_000);

  it('a line whose tags come after thousands of others has its fish in use', async () => {
    await fill(long, 'Y', 260, 4);
    const { lineId, males, females } = await fill(long, 'Z', 1, 1);
    const { outcrosses } = await long.graphql<{ outcrosses: { fish: { id: string } }[] }>(
      'query ($input: OutcrossInput!) { outcrosses(input: $input) { fish { id } } }',
      { input: { lineId, first: 5 } },
    );
    expect(outcrosses).toHaveLength(5);
    const input = { lineIds: [lineId], includeDiscouraged: true };
    const { totalCount } = await listOf(short, { input, sort: 'WORTH', direction: 'DESC' });
    expect(totalCount).toBe(males * females);
  });
});
