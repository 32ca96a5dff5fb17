import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { buildSchema, parse, validate } from 'graphql';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { today } from '../clock.js';
import { documentOf, hostileRequests, type Operation, type RealIds } from './hostile-values.js';
import { begun, largestWork, moreThanIsTaken, type UsableLocus } from './largest-work.js';
import { type Measured, type MeteredServer, startMetered } from './metered-server.js';

/** The committed schema, which another test holds against the running one. */
const schema = buildSchema(
  readFileSync(new URL('../../docs/schema.graphql', import.meta.url), 'utf8'),
);
const fieldsOf = (type: { getFields(): Record<string, Operation> } | null | undefined) =>
  Object.values(type?.getFields() ?? {});

/** Those that end the session or clear the stock come last: the others need both. */
const LAST = [
  'withdrawFish',
  'withdrawSpawn',
  'withdrawLine',
  'setPassword',
  'signOut',
  'clearDemo',
];
const rank = ({ name }: Operation): number => LAST.indexOf(name);

const operations = [
  ...fieldsOf(schema.getQueryType()).map((operation) => ['query', operation] as const),
  ...fieldsOf(schema.getMutationType())
    .toSorted((a, b) => rank(a) - rank(b))
    .map((operation) => ['mutation', operation] as const),
].map(([kind, operation]) => ({ name: operation.name, kind, operation }));
const ownerOf = (kind: string): string => (kind === 'query' ? 'Query' : 'Mutation');

/** Processor time of the main thread between two turns of its event loop. */
const LONGEST_STAND_MS = 200;
const MOST_MEMORY_MB = 600;
/** At least one of their hostile requests is done, and not refused: what they need was made for them. */
const ANSWERS = [
  ...['fish', 'line', 'spawn', 'pedigree', 'coancestry', 'lineHealth', 'relationshipMap'],
  ...['fishAct', 'importRun', 'takeBackPreview', 'takeBackImport'],
  ...['pairing', 'dropPairing', 'captionPhoto', 'withdrawPhoto'],
  ...['computation', 'cancelComputation'],
];
/** Of what is refused to whoever has no session: above nothing at all, with room for the engine's own housekeeping. */
const LONGEST_UNSIGNED_MS = 50;

interface Answer {
  readonly status: number;
  readonly codes: readonly string[];
  readonly text: string;
}

let server: MeteredServer;
let cookie = '';

const post = async (body: string, path = '/graphql'): Promise<Answer> => {
  const response = await fetch(`${server.url}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...(cookie !== '' && { cookie }) },
    body,
  });
  const set = response.headers.get('set-cookie');
  if (set !== null) cookie = set.split(';')[0] ?? '';
  const text = await response.text();
  const { errors = [] } = (
    response.headers.get('content-type')?.includes('json') === true ? JSON.parse(text) : {}
  ) as { errors?: { extensions?: { code?: string } }[] };
  const codes = errors.map(({ extensions }) => extensions?.code ?? 'no code');
  return { status: response.status, codes, text };
};

const picture = sharp({
  create: { width: 640, height: 480, channels: 3, background: { r: 20, g: 90, b: 160 } },
})
  .png()
  .toBuffer();

const DEEPEST = 5;
/** Refused before it is run: what it asks for is too much. */
const isTooMuch = ({ status, codes }: Answer): boolean =>
  status === 400 &&
  codes.every((code) =>
    /^(QUERY_TOO_COSTLY|GRAPHQL_VALIDATION_FAILED|GRAPHQL_PARSE_FAILED)$/.test(code),
  );

/** How deep a document of an operation may be before it is too large for anyone, whatever it is given. */
const deepestOf = new Map<string, number>();

/** Asks as deep as the server lets anyone. */
const ask = async (
  kind: 'query' | 'mutation',
  operation: Operation,
  variables: object,
): Promise<Answer> => {
  for (let depth = deepestOf.get(operation.name) ?? DEEPEST; ; depth -= 1) {
    const query = documentOf(kind, operation, Object.keys(variables), depth);
    const answer = await post(JSON.stringify({ query, variables }));
    if (depth === 0 || !isTooMuch(answer)) return answer;
    if (!answer.codes.includes('QUERY_TOO_COSTLY')) deepestOf.set(operation.name, depth - 1);
  }
};

const signIn = async (): Promise<void> => {
  cookie = '';
  const opened = await post('{"query":"mutation { openDemo { signedIn } }"}');
  if (opened.codes.length > 0) await post('{"query":"mutation { loadDemo { signedIn } }"}');
};

const idsIn = async (query: string): Promise<string[]> =>
  [...(await post(JSON.stringify({ query }))).text.matchAll(/"id":"([^"]+)"/g)].map(
    ([, id]) => id ?? '',
  );

const realIds = async (): Promise<RealIds> => ({
  males: await idsIn(
    '{ fishList(first: 200, filter: { sexes: [MALE] }) { edges { node { id } } } }',
  ),
  females: await idsIn(
    '{ fishList(first: 200, filter: { sexes: [FEMALE] }) { edges { node { id } } } }',
  ),
  fish: await idsIn('{ fishList(first: 200) { edges { node { id } } } }'),
  spawns: await idsIn('{ spawnList(first: 50) { edges { node { id } } } }'),
  lines: await idsIn('{ lines { id } }'),
  traits: await idsIn('{ traits { id } }'),
  sheets: await idsIn('{ scoreSheets { id } }'),
});

const asked = async <Data>(query: string, variables: object = {}): Promise<Data> => {
  const { text, codes } = await post(JSON.stringify({ query, variables }));
  expect(codes, text).toEqual([]);
  return (JSON.parse(text) as { data: Data }).data;
};

/** Records of kinds that the demo has none or few of, made for the sweep. */
const madeIds = async (fish: readonly string[]): Promise<RealIds> => {
  const numbers = Array.from({ length: 6 }, (_, i) => i);
  const [imports, importRuns, computations, photos]: string[][] = [[], [], [], []];
  for (const i of numbers) {
    await asked(
      `mutation { confirmImport(fileName: "s${i}.csv", columns: [], text: "tag,sex\\nSW${i}-1,male\\nSW${i}-2,female") { __typename } }`,
    );
    // Nothing but its size makes it long.
    const run = randomUUID();
    const { beginImport } = await asked<{ beginImport: { computation: { id: string } } }>(begun, {
      input: { id: run, purpose: 'LOOK', fileName: 'a.csv', text: `tag,${'a,'.repeat(1_000_000)}` },
    });
    importRuns?.push(run);
    computations?.push(beginImport.computation.id);
    const photo = randomUUID();
    const put = await fetch(
      `${server.url}/photos/${photo}?kind=fish&of=${fish[i] ?? ''}&taken=${today()}`,
      {
        method: 'PUT',
        body: new Uint8Array(await picture),
        headers: { 'content-type': 'image/png', origin: server.url, cookie },
      },
    );
    expect(put.status).toBe(200);
    photos?.push(photo);
  }
  const pastImports = await asked<{ pastImports: { edges: { node: { id: string } }[] } }>(
    '{ pastImports(first: 50) { edges { node { id } } } }',
  );
  imports?.push(...pastImports.pastImports.edges.map(({ node }) => node.id));
  const sexed = (sex: string) =>
    asked<{ fishList: { edges: { node: { id: string; tag: string; revision: number } }[] } }>(
      `{ fishList(first: 200, filter: { text: "SW", sexes: [${sex}] }) { edges { node { id tag revision } } } }`,
    );
  const [males, females] = [await sexed('MALE'), await sexed('FEMALE')].map(({ fishList }) =>
    fishList.edges.map(({ node }) => node),
  );
  const acts: string[] = [];
  const pairings: string[] = [];
  for (const i of numbers) {
    const [sire, dam] = [males?.[i], females?.[i]];
    const { planPairing } = await asked<{ planPairing: { id: string } }>(
      'mutation ($input: PlanPairingInput!) { planPairing(input: $input) { id } }',
      { input: { sireId: sire?.id, damId: dam?.id, plannedOn: today() } },
    );
    pairings.push(planPairing.id);
    const { changeFishTogether } = await asked<{ changeFishTogether: { id: string } }>(
      'mutation ($input: ChangeFishTogetherInput!) { changeFishTogether(input: $input) { id } }',
      {
        input: {
          fish: [{ id: dam?.id, revision: dam?.revision }],
          decision: { disposition: 'HOLD', on: today() },
        },
      },
    );
    acts.push(changeFishTogether.id);
  }
  return {
    ...{ imports: imports ?? [], importRuns: importRuns ?? [], computations: computations ?? [] },
    ...{ photos: photos ?? [], acts, pairings },
  };
};

const usableLoci = async (): Promise<UsableLocus[]> => {
  const { text } = await post('{"query":"{ loci { id computable own alleles { symbol } } }"}');
  const { data } = JSON.parse(text) as {
    data: {
      loci: { id: string; computable: boolean; own: boolean; alleles: { symbol: string }[] }[];
    };
  };
  return data.loci
    .filter(({ computable, own }) => computable && !own)
    .map(({ id, alleles }) => ({ id, symbols: alleles.map(({ symbol }) => symbol) }));
};

const faults: string[] = [];
const expectStanding = async (what: string, answer: Answer): Promise<Measured> => {
  const measured = await server.measure();
  const wrong = (told: string): void => void faults.push(`${what}: ${told}`);
  if (answer.status >= 500) wrong(`status ${answer.status}`);
  for (const code of ['INTERNAL', 'INTERNAL_SERVER_ERROR', 'no code'])
    if (answer.codes.includes(code)) wrong(`${code} ${answer.text.slice(0, 300)}`);
  if (measured.standMs > LONGEST_STAND_MS)
    wrong(`held the event loop for ${measured.standMs.toFixed(0)} ms (${answer.codes.join()})`);
  if (measured.peakMb > MOST_MEMORY_MB) wrong(`${measured.peakMb.toFixed(0)} MB of memory`);
  return measured;
};

describe('the largest work', () => {
  let ids: RealIds;
  beforeAll(async () => {
    server = await startMetered();
    await signIn();
    ids = await realIds();
    await server.measure();
  });
  afterAll(() => server.stop());

  /** A partner's file of the demo's first line, with fish of the partner's own until it is as large as one may be. */
  const partnerFile = async (): Promise<string> => {
    const response = await fetch(`${server.url}/export/line/${ids['lines']?.[0] ?? ''}.json`, {
      headers: { cookie },
    });
    const file = (await response.json()) as {
      keeper: { id: string };
      keepers: { id: string; name: string }[];
      records: Record<string, Record<string, unknown>[]>;
    };
    const partner = { id: randomUUID(), name: 'Partner' };
    const [fish] = file.records['fish'] ?? [];
    return JSON.stringify({
      ...file,
      keeper: partner,
      keepers: [...file.keepers, partner],
      records: {
        ...file.records,
        fish: [
          ...(file.records['fish'] ?? []),
          ...Array.from({ length: 10_000 }, (_, i) => ({
            ...{ ...fish, id: randomUUID(), tag: `P-${i}`, keeperId: partner.id },
          })),
        ],
      },
    });
  };

  /** Waits for a long computation that an answer names. */
  const wait = async ({ text }: Answer): Promise<void> => {
    const id = /"computation":\{"id":"([^"]+)"/.exec(text)?.[1];
    if (id === undefined) return;
    const query = `{ computation(id: "${id}") { state } }`;
    await expect
      .poll(async () => (await post(JSON.stringify({ query }))).text, { timeout: 120_000 })
      .toContain('"DONE"');
  };

  it.each(Object.entries(largestWork))('is answered: %s', async (_, works) => {
    faults.length = 0;
    for (const { name, query, variables } of works(ids, await usableLoci(), await partnerFile())) {
      // One that the schema does not have would be measured as refused at once.
      expect(validate(schema, parse(query)), name).toEqual([]);
      await server.measure();
      const answer = await post(JSON.stringify({ query, variables }));
      await wait(answer);
      await expectStanding(name, answer);
      // One that is refused has not been worked out: nothing was measured.
      if (answer.status !== 200 || answer.codes.length > 0)
        faults.push(`${name}: refused, ${answer.status} ${answer.text.slice(0, 200)}`);
    }
    expect(faults).toEqual([]);
  });

  it('what is more than that is refused, and nothing stands', async () => {
    faults.length = 0;
    for (const { name, query, variables, code } of moreThanIsTaken(await usableLoci())) {
      expect(validate(schema, parse(query)), name).toEqual([]);
      await server.measure();
      const answer = await post(JSON.stringify({ query, variables }));
      await expectStanding(name, answer);
      expect([...new Set(answer.codes)], name).toEqual([code]);
    }
    expect(faults).toEqual([]);
  });

  it('a thousand labels', async () => {
    faults.length = 0;
    const tags = Array.from({ length: 1_000 }, (_, i) => `L${i},${'long name '.repeat(19)}`);
    const query =
      'mutation ($t: String!) { confirmImport(fileName: "l.csv", columns: [], text: $t) { __typename } }';
    const taken = await post(
      JSON.stringify({ query, variables: { t: `tag,name\n${tags.join('\n')}` } }),
    );
    expect(taken.codes).toEqual([]);
    const fish: string[] = [];
    for (let after = ''; fish.length < 1_000;) {
      const page = `{ fishList(first: 200, ${after} filter: { text: "L" }) { edges { node { id } } pageInfo { endCursor } } }`;
      const { text } = await post(JSON.stringify({ query: page }));
      fish.push(...[...text.matchAll(/"id":"([^"]+)"/g)].map(([, id]) => id ?? ''));
      after = `after: "${/"endCursor":"([^"]+)"/.exec(text)?.[1] ?? ''}",`;
    }
    await server.measure();
    const printed = await post(
      JSON.stringify({ fish: fish.slice(0, 1_000).join(',') }),
      '/export/print/jar-labels.pdf',
    );
    await expectStanding('a thousand labels', printed);
    expect(printed.status).toBe(200);
    expect(printed.text.length).toBeGreaterThan(100_000);
    expect(faults).toEqual([]);
  });
});

describe('hostile sizes', () => {
  let ids: RealIds;
  beforeAll(async () => {
    server = await startMetered();
    await signIn();
    ids = await realIds();
    ids = { ...ids, ...(await madeIds(ids['fish'] ?? [])) };
    await server.measure();
  });
  afterAll(() => server.stop());

  const signedIn = async (): Promise<boolean> =>
    (await post('{"query":"{ session { signedIn } }"}')).text.includes('"signedIn":true');

  it('begins with records of every kind', () => {
    for (const list of Object.values(ids)) expect(list.length).toBeGreaterThan(0);
    expect(operations.length).toBeGreaterThan(100);
  });

  it.each(operations)('$name', async ({ name, kind, operation }) => {
    faults.length = 0;
    const refusals: string[] = [];
    let answered = false;
    for (const { name: how, variables } of hostileRequests(ownerOf(kind), operation, ids)) {
      if (!(await signedIn())) await signIn();
      await server.measure();
      const answer = await ask(kind, operation, variables);
      await expectStanding(`${name}, ${how}`, answer);
      if (answer.status === 200 && answer.codes.length === 0) answered = true;
      else refusals.push(`${how}: ${answer.text.slice(0, 200)}`);
    }
    expect(faults).toEqual([]);
    if (ANSWERS.includes(name)) expect(answered, refusals.join('\n')).toBe(true);
    expect(server.ended()).toBeNull();
  });
});

describe('hostile sizes without a session', () => {
  beforeAll(async () => {
    server = await startMetered();
    await signIn();
    cookie = '';
    await server.measure();
  });
  afterAll(() => server.stop());

  /** The first answers by the session alone; the others change who is signed in. */
  const open = ['session', 'setUp', 'signIn', 'signOut', 'loadDemo', 'openDemo'];
  const closed = operations.filter(({ name }) => !open.includes(name));

  it.each(operations.filter(({ name }) => open.includes(name)))(
    '$name, which is open to all, stands',
    async ({ name, kind, operation }) => {
      faults.length = 0;
      for (const { name: how, variables } of hostileRequests(ownerOf(kind), operation, {})) {
        const query = documentOf(kind, operation, Object.keys(variables), 1);
        await server.measure();
        cookie = '';
        const answer = await post(JSON.stringify({ query, variables }));
        await expectStanding(`${name}, ${how}`, answer);
      }
      cookie = '';
      expect(faults).toEqual([]);
      expect(server.ended()).toBeNull();
    },
  );

  it.each(closed)('$name is refused before any work', async ({ name, kind, operation }) => {
    faults.length = 0;
    for (const { name: how, variables } of hostileRequests(ownerOf(kind), operation, {})) {
      const query = documentOf(kind, operation, Object.keys(variables), 1);
      await server.measure();
      const answer = await post(JSON.stringify({ query, variables }));
      const { standMs } = await expectStanding(`${name}, ${how}`, answer);
      // What does not fit the few bytes of a sign-in is not even read.
      if (answer.status !== 401 && answer.status !== 413 && answer.status !== 400)
        faults.push(`${name}, ${how}: answered with ${answer.status}`);
      if (answer.status === 401) expect(answer.codes).toEqual(['SIGN_IN_NEEDED']);
      if (standMs > LONGEST_UNSIGNED_MS) faults.push(`${name}, ${how}: worked ${standMs} ms`);
    }
    const least = documentOf(kind, operation, [], 0);
    expect(await post(JSON.stringify({ query: least }))).toMatchObject({
      status: 401,
      codes: ['SIGN_IN_NEEDED'],
    });
    expect(faults).toEqual([]);
  });
});
