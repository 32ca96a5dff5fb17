import { readFileSync } from 'node:fs';
import { buildSchema, parse, validate } from 'graphql';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { documentOf, hostileRequests, type Operation, type RealIds } from './hostile-values.js';
import { largestWork, type UsableLocus } from './largest-work.js';
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

describe('hostile sizes', () => {
  let ids: RealIds;
  beforeAll(async () => {
    server = await startMetered();
    await signIn();
    ids = await realIds();
    await server.measure();
  });
  afterAll(() => server.stop());

  const signedIn = async (): Promise<boolean> =>
    (await post('{"query":"{ session { signedIn } }"}')).text.includes('"signedIn":true');

  it('begins with records of every kind', () => {
    for (const list of Object.values(ids)) expect(list.length).toBeGreaterThan(0);
    expect(operations.length).toBeGreaterThan(100);
  });

  it('the largest that is worked out', async () => {
    faults.length = 0;
    for (const { name, query, variables } of largestWork(ids, await usableLoci())) {
      // One that the schema does not have would be measured as refused at once.
      expect(validate(schema, parse(query)), name).toEqual([]);
      await server.measure();
      const answer = await post(JSON.stringify({ query, variables }));
      await expectStanding(name, answer);
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

  it.each(operations)('$name', async ({ name, kind, operation }) => {
    faults.length = 0;
    for (const { name: how, variables } of hostileRequests(ownerOf(kind), operation, ids)) {
      if (!(await signedIn())) await signIn();
      await server.measure();
      const answer = await ask(kind, operation, variables);
      await expectStanding(`${name}, ${how}`, answer);
    }
    expect(faults).toEqual([]);
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
