import { randomUUID } from 'node:crypto';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openOperations } from '../../apps/api/src/accounts/session.guard.js';
import { documentOf, type Operation } from './hostile-values.js';
import { PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';
import {
  fingerprint,
  type LesserAccount,
  lesserAccount,
  numbered,
  secretsOf,
  withMissingIds,
} from './lesser-account.js';
import { type Making, valueOf } from './typed-values.js';

/** About the account itself: to leave, and to change its password. */
const OWN = ['signOut', 'setPassword'];

const WORDS: readonly (readonly [RegExp, string])[] = [
  [/zone$/i, 'UTC'],
  [/locusId$/, 'dt'],
  [/genotype$/, '?/?'],
  [/(fraction|share|survival)$/i, '1/3'],
  [/fileName$/, 'a.csv'],
  [/\.text$/, 'tag,sex\nNEW-1,male\n'],
  [/confirm$/, 'clear the demo'],
  [/(tag|code|key)$/i, 'NEW-1'],
];

/** Of which table an id is taken, by the name of the argument, then by that of the operation. */
const KINDS: readonly (readonly [RegExp, string])[] = [
  [/sire/i, 'male'],
  [/dam/i, 'female'],
  [/photo/i, 'photo'],
  [/phenotype/i, 'phenotype'],
  [/genotype/i, 'genotype'],
  [/pairing/i, 'pairing'],
  [/scoring/i, 'sheet_scoring'],
  [/sheet/i, 'score_sheet'],
  [/score/i, 'score'],
  [/trait/i, 'trait_definition'],
  [/template/i, 'care_template'],
  [/care.*entry/i, 'care_entry'],
  [/reading/i, 'water_reading'],
  [/event/i, 'spawn_event'],
  [/classCount/i, 'class_count'],
  [/count/i, 'spawn_count'],
  [/loss/i, 'spawn_loss'],
  [/setting/i, 'locus_setting'],
  [/importRun|beginImport/i, 'import_run'],
  [/import/i, 'past_import'],
  [/computation/i, 'computation'],
  [/entry|undo/i, 'received_entry'],
  [/keeper|swims/i, 'keeper'],
  [/line/i, 'line'],
  [/spawn|care/i, 'spawn'],
];
const kindOf = (text: string): string | undefined =>
  KINDS.find(([pattern]) => pattern.test(text))?.[1];

let api: RunningApi;
let records: DataSource;
let idsOf: (kind: string) => string;
let operations: { name: string; kind: 'query' | 'mutation'; operation: Operation }[];

const firstIds = async (): Promise<(kind: string) => string> => {
  const found = new Map<string, string>();
  const take = async (kind: string, sql: string): Promise<void> => {
    const [row] = (await records.query(sql)) as { id: string }[];
    if (row !== undefined) found.set(kind, row.id);
  };
  for (const [, kind] of KINDS)
    if (!/male$/.test(kind)) await take(kind, `SELECT id FROM "${kind}" ORDER BY id LIMIT 1`);
  for (const sex of ['male', 'female'])
    await take(
      sex,
      `SELECT id FROM fish WHERE sex = '${sex}' AND spawn_id IS NOT NULL AND withdrawn_at IS NULL ORDER BY tag LIMIT 1`,
    );
  await take(
    'fish',
    `SELECT f.id FROM fish f JOIN score s ON s.fish_id = f.id ORDER BY f.tag LIMIT 1`,
  );
  return (kind) => found.get(kind) ?? '';
};

/** Records of the kinds that the demo has none of. */
const addTheRest = async (): Promise<void> => {
  await api.graphql(
    `mutation { confirmImport(fileName: "hidden-file.csv", columns: [], text: "tag,sex\\nHIDDEN-1,male\\n") { __typename } }`,
  );
  await api.graphql(
    `mutation ($id: ID!) { createFish(input: { tag: "HIDDEN-2", sex: UNSEXED, entryId: $id }) { id } }`,
    { id: randomUUID() },
  );
  const [owner] = (await records.query('SELECT id, name FROM keeper WHERE here')) as {
    id: string;
    name: string;
  }[];
  await records.query(
    `INSERT INTO computation (id, kind, subject, evidence, state, asked_by, result) VALUES ($1, 'import', $2, '', 'done', 'Owner', '{}')`,
    [randomUUID(), randomUUID()],
  );
  await records.query(
    `INSERT INTO import_run (id, keeper_id, purpose, file_name, columns) VALUES ($1, $2, 'take', 'hidden-run.csv', '[]')`,
    [randomUUID(), owner?.id],
  );
};

const makings: readonly Making[] = [false, true].map((all) => ({
  all,
  text: (place) => WORDS.find(([pattern]) => pattern.test(place))?.[1] ?? 'words',
  number: () => 1,
  length: () => 1,
  id: (place) => idsOf(kindOf(place.slice(place.lastIndexOf('.') + 1)) ?? kindOf(place) ?? 'fish'),
}));

const variablesOf = (kind: string, operation: Operation, making: Making): object =>
  Object.fromEntries(
    operation.args
      .filter(({ type }) => making.all || String(type).endsWith('!'))
      .map((arg) => [
        arg.name,
        valueOf(
          arg.type,
          making,
          `${kind === 'query' ? 'Query' : 'Mutation'}.${operation.name}.${arg.name}`,
        ),
      ]),
  );

const DEEPEST = 4;

/** As deep as the server lets anyone ask. */
const ask = async (
  account: LesserAccount,
  { kind, operation }: (typeof operations)[number],
  variables: object,
) => {
  for (let depth = DEEPEST; ; depth -= 1) {
    const answer = await account.send(
      documentOf(kind, operation, Object.keys(variables), depth),
      variables,
    );
    const code = answer.errors?.[0]?.extensions.code ?? '';
    const tooMuch = /^(QUERY_TOO_COSTLY|GRAPHQL_VALIDATION_FAILED|GRAPHQL_PARSE_FAILED)$/;
    if (depth === 0 || !tooMuch.test(code)) return answer;
  }
};

/** Plain routes of the server with requests to them; of hidden records or of none. */
const routes: Readonly<Record<string, (ids: (kind: string) => string) => [string, RequestInit?]>> =
  {
    'get /healthz': () => ['/healthz'],
    'get /calendar/:file': () => [`/calendar/${'x'.repeat(43)}.ics`],
    'get /export/pedigree.csv': () => ['/export/pedigree.csv'],
    'get /export/line/:id.json': (ids) => [`/export/line/${ids('line')}.json`],
    'get /export/backup/:id': (ids) => [`/export/backup/${ids('backup_run')}`],
    'get /export/print/jar-labels.pdf': (ids) => [
      `/export/print/jar-labels.pdf?fish=${ids('fish')}`,
    ],
    'post /export/print/jar-labels.pdf': (ids) => [
      '/export/print/jar-labels.pdf',
      {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ fish: ids('fish') }),
      },
    ],
    'get /export/print/spawn-cards.pdf': (ids) => [
      `/export/print/spawn-cards.pdf?spawn=${ids('spawn')}`,
    ],
    'get /export/print/line-cards.pdf': (ids) => [
      `/export/print/line-cards.pdf?line=${ids('line')}`,
    ],
    'get /photos/:id': (ids) => [`/photos/${ids('photo')}`],
    'get /photos/:id/small': (ids) => [`/photos/${ids('photo')}/small`],
    'put /photos/:id': (ids) => [
      `/photos/${ids('photo')}?kind=fish&of=${ids('fish')}`,
      { method: 'PUT', body: new Uint8Array([1, 2, 3]), headers: { origin: api.url } },
    ],
  };

interface Layer {
  readonly route?: { readonly path: string; readonly methods: Record<string, boolean> };
}

/** What the server itself says it answers. */
const routesServed = (): string[] => {
  const { router } = api.served.app.getHttpAdapter().getInstance() as unknown as {
    router: { stack: Layer[] };
  };
  return router.stack.flatMap(({ route }) =>
    route === undefined
      ? []
      : Object.keys(route.methods).map((method) => `${method} ${route.path}`),
  );
};

const OPEN_ROUTES = ['get /healthz', 'get /calendar/:file'];

beforeAll(async () => {
  api = await startApi({ demo: true });
  await api.graphql(`mutation { setPassword(password: "${PASSWORD}") { signedIn } }`);
  records = await recordsOf(api);
  await addTheRest();
  idsOf = await firstIds();
  const { schema } = api.served.app.get(GraphQLSchemaHost);
  operations = (['query', 'mutation'] as const).flatMap((kind) =>
    Object.values(
      (kind === 'query' ? schema.getQueryType() : schema.getMutationType())?.getFields() ?? {},
    )
      .filter(({ name }) => !openOperations.has(name) && !OWN.includes(name))
      .map((operation) => ({ name: operation.name, kind, operation })),
  );
});
afterAll(() => api.close());

describe('an account that was granted nothing', () => {
  let guest: LesserAccount;
  beforeAll(async () => {
    guest = await lesserAccount(api);
  });

  it('is refused on every operation of the schema, in the same words whatever it asks for, and changes nothing', async () => {
    expect(operations.length).toBeGreaterThan(120);
    const before = await fingerprint(records);
    const faults: string[] = [];
    for (const one of operations) {
      const variables = variablesOf(one.kind, one.operation, makings[1]!);
      const answer = await ask(guest, one, variables);
      const codes = (answer.errors ?? []).map(({ extensions }) => extensions.code).join();
      if (codes !== 'NOT_ALLOWED' || answer.data !== null)
        faults.push(`${one.name}: ${answer.text.slice(0, 200)}`);
    }
    expect(faults).toEqual([]);
    expect(await fingerprint(records)).toEqual(before);
  });

  it('is refused on every plain route, those that need no session apart', async () => {
    expect(routesServed().filter((route) => !(route in routes) && !/graphql/.test(route))).toEqual(
      [],
    );
    for (const [route, request] of Object.entries(routes)) {
      const response = await guest.http(...request(idsOf));
      if (OPEN_ROUTES.includes(route)) continue;
      expect([route, response.status]).toEqual([route, 403]);
      expect(await response.json()).toMatchObject({ code: 'NOT_ALLOWED' });
    }
  });

  it('may leave, and knows who it is', async () => {
    const { data } = await guest.send('{ session { signedIn keeper { id here } } }');
    expect(data).toEqual({ session: { signedIn: true, keeper: { id: guest.id, here: false } } });
  });
});

describe('an account that was granted one line', () => {
  let guest: LesserAccount;
  let granted: string;
  let secrets: string[];
  const shared = { tag: 'SHARED-1', lineCode: 'SHAREDLINE' };

  /** A line of its own with one fish, whose parents are of a line that was not granted. */
  beforeAll(async () => {
    const { createLine } = await api.graphql<{ createLine: { id: string } }>(
      `mutation { createLine(input: { code: "${shared.lineCode}", name: "Lent line" }) { id } }`,
    );
    granted = createLine.id;
    const { createFish } = await api.graphql<{ createFish: { id: string } }>(
      'mutation ($input: CreateFishInput!) { createFish(input: $input) { id } }',
      {
        input: {
          tag: shared.tag,
          sex: 'FEMALE',
          lineId: granted,
          ...{ sireId: idsOf('male'), damId: idsOf('female') },
        },
      },
    );
    guest = await lesserAccount(api, [granted]);
    const toldToAll = [createFish.id, granted, guest.id, shared.tag, shared.lineCode, 'Lent line'];
    secrets = await secretsOf(records, [...toldToAll, 'Visitor', 'recorded', 'words']);
  });

  /** Hidden words in a text, but those that were sent. */
  const leaks = (text: string, sent: string): string[] =>
    secrets.filter((word) => text.includes(word) && !sent.includes(word)).slice(0, 5);

  it('begins with much that is hidden', () => {
    expect(secrets.length).toBeGreaterThan(1_000);
    for (const [, kind] of KINDS) if (idsOf(kind) !== '') expect(secrets).toContain(idsOf(kind));
  });

  it('sees that line and its fish', async () => {
    const { data } = await guest.send(
      '{ lines { id code } fishList(first: 50) { totalCount edges { node { tag sex } } } }',
    );
    expect(data).toEqual({
      lines: [{ id: granted, code: shared.lineCode }],
      fishList: { totalCount: 1, edges: [{ node: { tag: shared.tag, sex: 'FEMALE' } }] },
    });
  });

  it('is told nothing hidden by any operation, nor whether it is there, and changes nothing', async () => {
    const print = await fingerprint(records);
    const faults: string[] = [];
    for (const one of operations) {
      for (const making of makings) {
        const hidden = variablesOf(one.kind, one.operation, making);
        const { variables: missing, pairs } = withMissingIds(hidden);
        const [ofHidden, ofMissing] = [
          await ask(guest, one, hidden),
          await ask(guest, one, missing),
        ];
        const fault = (what: string): void =>
          void faults.push(`${one.name}: ${what} ${ofHidden.text.slice(0, 400)}`);
        const leaked = leaks(ofHidden.text, JSON.stringify(hidden));
        if (leaked.length > 0) fault(`tells ${leaked.join(', ')}`);
        if (ofHidden.text.includes('INTERNAL')) fault('is a fault');
        else if (
          numbered(
            ofHidden.text,
            pairs.map(([id]) => id),
          ) !==
          numbered(
            ofMissing.text,
            pairs.map(([, id]) => id),
          )
        )
          fault(`differs from ${ofMissing.text.slice(0, 400)}`);
      }
    }
    expect(faults).toEqual([]);
    expect(await fingerprint(records)).toEqual(print);
  });
});
