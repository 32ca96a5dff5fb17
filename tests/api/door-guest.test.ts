import { randomUUID } from 'node:crypto';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openOperations } from '../../apps/api/src/accounts/session.guard.js';
import { documentOf, type Operation } from './hostile-values.js';
import { hiddenNames, hideRecords, type IdsOf, variablesOf } from './hidden-records.js';
import { PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';
import {
  fingerprint,
  GRANTED,
  type LesserAccount,
  lesserAccount,
  numbered,
  secretsOf,
  withMissingIds,
} from './lesser-account.js';
import { newRecords } from '../new-records.js';

/** About the account itself: to leave, to change its password, where it is signed in, and what it was granted. */
const OWN = [
  ...['signOut', 'setPassword', 'openSessions', 'endSession', 'lineGrants', 'waysIn'],
  ...['ownData', 'eraseOwnData'],
  ...['offerSecondStep', 'confirmSecondStep', 'renewSpareCodes', 'endSecondStep'],
  ...['offerPasskey', 'addPasskey', 'removePasskey', 'makeToken', 'endToken'],
];

let api: RunningApi;
let records: DataSource;
let idsOf: IdsOf;
let hidden: string[];
let operations: { name: string; kind: 'query' | 'mutation'; operation: Operation }[];

const DEEPEST = 4;
/** How deep that turned out to be, by operation and what it is given. */
const deepestOf = new Map<string, number>();

/** As deep as the server lets anyone ask. */
const ask = async (
  account: LesserAccount,
  { kind, operation }: (typeof operations)[number],
  variables: object,
) => {
  const asked = [kind, operation.name, ...Object.keys(variables)].join();
  for (let depth = deepestOf.get(asked) ?? DEEPEST; ; depth -= 1) {
    deepestOf.set(asked, depth);
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
    'get /export/line/:id.zip': (ids) => [`/export/line/${ids('line')}.zip`],
    'put /line-files/:id': () => [
      `/line-files/${randomUUID()}`,
      { method: 'PUT', body: new Uint8Array([1, 2, 3]), headers: { origin: api.url } },
    ],
    'post /workbook-sheets': () => [
      '/workbook-sheets',
      { method: 'POST', body: new Uint8Array([1, 2, 3]), headers: { origin: api.url } },
    ],
    'get /export/own-data.zip': () => ['/export/own-data.zip'],
    'get /export/backup/:id': (ids) => [`/export/backup/${ids('backup_run')}`],
    'get /export/print/jar-labels.pdf': (ids) => [
      `/export/print/jar-labels.pdf?fish=${ids('fish')}`,
    ],
    'get /export/print/vessel-labels.pdf': (ids) => [
      `/export/print/vessel-labels.pdf?vessel=${ids('vessel')}`,
    ],
    'post /export/print/vessel-labels.pdf': (ids) => [
      '/export/print/vessel-labels.pdf',
      {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ vessel: ids('vessel') }),
      },
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
    'get /photos/:id/tiny': (ids) => [`/photos/${ids('photo')}/tiny`],
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

/** Of what is recorded of whoever asks, tests/api/own-data.test.ts looks into the file. */
const OWN_ROUTE = 'get /export/own-data.zip';
const OPEN_ROUTES = ['get /healthz', 'get /calendar/:file', OWN_ROUTE];

beforeAll(async () => {
  api = await startApi({ demo: true });
  await api.graphql(`mutation { setPassword(password: "${PASSWORD}") { signedIn } }`);
  records = await recordsOf(api);
  ({ ids: idsOf, all: hidden } = await hideRecords(api, records));
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
    expect(operations.length).toBeGreaterThan(100);
    const before = await fingerprint(records);
    const faults: string[] = [];
    for (const one of operations) {
      const answer = await ask(guest, one, variablesOf(one, idsOf)[1]!);
      const codes = (answer.errors ?? []).map(({ extensions }) => extensions.code).join();
      const told = Object.values(answer.data ?? {}).some((value) => value !== null);
      if (codes !== 'NOT_ALLOWED' || told) faults.push(`${one.name}: ${answer.text.slice(0, 200)}`);
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
    const { data } = await guest.send('{ session { signedIn person { id here } } }');
    expect(data).toEqual({ session: { signedIn: true, person: { id: guest.id, here: false } } });
  });
});

const kinds = Object.keys(GRANTED) as (keyof typeof GRANTED)[];

describe.each(kinds)('an account that was granted one line %s', (kind) => {
  let guest: LesserAccount;
  let granted: string;
  let secrets: string[];
  /** By what fish are scored: known to whoever may. */
  let scales: string[] = [];
  const number = kinds.indexOf(kind) + 1;
  const shared = { tag: `SHARED-${number}`, lineCode: `SHAREDLINE-${number}` };

  /** A line of its own with one fish, whose parents are of a line that was not granted. */
  beforeAll(async () => {
    granted = await newRecords(api).createLine({ code: shared.lineCode, name: 'Lent line' });
    const fishId = await newRecords(api).createFish({
      tag: shared.tag,
      sex: 'FEMALE',
      lineId: granted,
      ...{ sireId: idsOf('male'), damId: idsOf('female') },
    });
    guest = await lesserAccount(api, [granted], kind);
    if (kind !== 'to look at')
      scales = (
        (await records.query(
          'SELECT id FROM trait_definition UNION SELECT id FROM score_sheet',
        )) as {
          id: string;
        }[]
      ).map(({ id }) => id);
    const [owner] = (await records.query('SELECT id, name FROM person WHERE here')) as {
      id: string;
      name: string;
    }[];
    const toldToAll = [
      owner?.id ?? '',
      owner?.name ?? '',
      fishId,
      granted,
      guest.id,
      shared.tag,
      shared.lineCode,
      'Lent line',
    ];
    const told = [...toldToAll, ...scales, 'Visitor', 'recorded', 'words'];
    // Of the line and its fish, what is told beside their words.
    const spawns = (await records.query('SELECT id, tag FROM spawn WHERE line_id = $1', [
      granted,
    ])) as { id: string; tag: string }[];
    for (const { id, tag } of spawns) told.push(id, tag);
    secrets = await secretsOf(records, told);
  });

  /** Hidden words in a text, but those that were sent. */
  const leaks = (text: string, sent: string): string[] =>
    secrets.filter((word) => text.includes(word) && !sent.includes(word)).slice(0, 5);

  it('begins with much that is hidden', () => {
    expect(secrets.length).toBeGreaterThan(1_000);
    expect(hidden.length).toBeGreaterThan(30);
    for (const word of [...hidden, ...hiddenNames])
      if (!scales.includes(word)) expect(secrets).toContain(word);
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
      for (const asked of variablesOf(one, idsOf)) {
        const { variables: missing, pairs } = withMissingIds(asked, hiddenNames, scales);
        const [ofHidden, ofMissing] = [
          await ask(guest, one, asked),
          await ask(guest, one, missing),
        ];
        const fault = (what: string): void =>
          void faults.push(`${one.name}: ${what} ${ofHidden.text.slice(0, 400)}`);
        const leaked = leaks(ofHidden.text, JSON.stringify(asked));
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
    // What is worked out for them is kept, and is no record.
    const after = await fingerprint(records);
    expect({ ...after, computation: '' }).toEqual({ ...print, computation: '' });
  });

  it('gets nothing further by a cursor of the owner', async () => {
    const list = (after: string) =>
      `{ fishList(first: 1, sort: { field: TAG, direction: ASC }${after}) { totalCount edges { node { tag } } pageInfo { endCursor } } }`;
    const { fishList } = await api.graphql<{ fishList: { pageInfo: { endCursor: string } } }>(
      list(''),
    );
    const { data } = await guest.send(list(`, after: "${fishList.pageInfo.endCursor}"`));
    expect(data).toMatchObject({
      fishList: { totalCount: 1, edges: [{ node: { tag: shared.tag } }] },
    });
  });

  it('gets nothing hidden by a plain route, and the same answer for what is not there', async () => {
    const missing = new Map<string, string>();
    const nowhere = (kind: string): string => {
      missing.set(kind, missing.get(kind) ?? randomUUID());
      return missing.get(kind)!;
    };
    for (const [route, request] of Object.entries(routes)) {
      if (route === OWN_ROUTE) continue;
      const [ofHidden, ofMissing] = [
        await guest.http(...request(idsOf)),
        await guest.http(...request(nowhere)),
      ];
      expect([route, ofHidden.status]).toEqual([route, ofMissing.status]);
      const [hidden, absent] = [await ofHidden.text(), await ofMissing.text()];
      expect([route, leaks(hidden, JSON.stringify(request(idsOf)))]).toEqual([route, []]);
      const kinds = [...missing.keys()];
      expect(numbered(hidden, kinds.map(idsOf))).toBe(numbered(absent, kinds.map(nowhere)));
    }
  });

  it('has in its calendar what it may see', async () => {
    const secret = 'AB'[number - 1]!.repeat(43);
    await records.query(
      `INSERT INTO calendar_address (person_id, secret_hash) VALUES ($1, encode(sha256($2::bytea), 'hex'))`,
      [guest.id, secret],
    );
    const response = await fetch(`${api.url}/calendar/${secret}.ics`);
    expect(response.status).toBe(200);
    expect(await response.text()).not.toContain('VEVENT');
    const { renewCalendarAddress } = await api.graphql<{ renewCalendarAddress: { path: string } }>(
      'mutation { renewCalendarAddress { path } }',
    );
    expect(await (await fetch(`${api.url}${renewCalendarAddress.path}`)).text()).toContain(
      'VEVENT',
    );
  });

  it('is shown ancestors without their names, and cannot ask for them', async () => {
    const [fish] = (await records.query('SELECT id FROM fish WHERE tag = $1', [shared.tag])) as {
      id: string;
    }[];
    const query =
      '{ pedigree(fishId: "ID", ancestorGenerations: 3, descendantGenerations: 0) { fish { id tag sex sireId damId hatchDate lineCode spawnTag } } }';
    interface Drawn {
      readonly pedigree: { readonly fish: readonly Record<string, string | null>[] };
    }
    const { data } = await guest.send(query.replace('ID', fish?.id ?? ''));
    const drawn = (data as Drawn).pedigree.fish;
    expect(drawn.length).toBeGreaterThan(4);
    const own = drawn.find(({ id }) => id === fish?.id);
    expect(own).toMatchObject({ tag: shared.tag, sireId: idsOf('male'), damId: idsOf('female') });
    const masked = drawn.filter((one) => one !== own && !/^unknown/.test(one['tag'] ?? ''));
    expect(masked.length).toBeGreaterThan(2);
    for (const one of masked)
      expect(one).toMatchObject({
        tag: 'not shown',
        hatchDate: null,
        lineCode: null,
        spawnTag: null,
      });
    expect(masked.find(({ id }) => id === idsOf('male'))).toMatchObject({ sex: 'MALE' });
    expect(masked.some(({ sireId }) => sireId !== null)).toBe(true);
    const whole = await api.graphql<Drawn>(query.replace('ID', fish?.id ?? ''));
    expect(whole.pedigree.fish.map(({ id }) => id).sort()).toEqual(
      drawn.map(({ id }) => id).sort(),
    );
    expect(JSON.stringify(whole)).not.toContain('not shown');
    for (const id of [idsOf('male'), randomUUID()]) {
      const { errors } = await guest.send(query.replace('ID', id));
      expect(errors?.map(({ extensions }) => extensions.code)).toEqual(['NOT_FOUND']);
    }
  });
});

describe('who did it', () => {
  it('is kept by account: in the history, of imports, of long computations and of backups', async () => {
    const [owner] = (await records.query('SELECT id FROM person WHERE here')) as { id: string }[];
    const [made] = (await records.query(
      `SELECT h.by_account_id AS id FROM record_history h JOIN fish f ON f.id = h.record_id WHERE f.tag = 'HIDDEN-2'`,
    )) as { id: string }[];
    expect(made).toEqual(owner);
    // By a thread with a connection of its own, or a statement for many rows.
    const imported = await records.query(
      `SELECT DISTINCT h.by_account_id AS id FROM record_history h WHERE h.action = 'imported'`,
    );
    expect(imported).toEqual([owner]);
    expect(await records.query('SELECT by_account_id AS id FROM past_import')).toEqual([owner]);
    await api.graphql('mutation { makeBackup { underWay } }');
    expect(await records.query('SELECT asked_by_account_id AS id FROM backup_run')).toEqual([
      owner,
    ]);
    // The program's own work names no account.
    const demo = await records.query(
      `SELECT DISTINCT by_account_id AS id FROM record_history WHERE by_name = 'demo scenario'`,
    );
    expect(demo).toEqual([{ id: null }]);
  });
});
