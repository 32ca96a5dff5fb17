import { request } from 'node:http';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import { AccountsService } from '../../apps/api/src/accounts/accounts.service.js';
import { LARGEST_BODY } from '../../apps/api/src/entrance/entrance.js';
import { fileOperations } from '../../apps/api/src/graphql/work-costs.js';
import { PASSWORD, type RunningApi, startApi } from './harness.js';
import { hostileRequests } from './hostile-values.js';

interface Answer {
  readonly status: number;
  readonly body: string;
}

/** `fetch` sets the Host header itself; this sends whatever is given. */
const post = (
  url: string,
  body: string | Buffer,
  headers: Record<string, string> = {},
  path = '/graphql',
): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(url);
    const sent = request(
      {
        ...{ hostname, port, path, method: 'POST' },
        headers: { 'content-type': 'application/json', ...headers },
      },
      (response) => {
        let text = '';
        response.on('data', (piece: Buffer) => (text += piece.toString()));
        response.on('end', () => resolve({ status: response.statusCode ?? 0, body: text }));
      },
    );
    sent.on('error', reject);
    sent.end(body);
  });
const asked = (query: string, variables: object = {}): string =>
  JSON.stringify({ query, variables });
const SET_UP = 'mutation ($input: SetUpInput!) { setUp(input: $input) { signedIn } }';
const setUp = (more: object = {}): string =>
  asked(SET_UP, { input: { personName: 'A stranger', password: PASSWORD, ...more } });

describe('before sign-in', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
    api.forgetSession();
  });
  afterAll(() => api.close());

  it.each([
    ['brackets', '['.repeat(58_000), 400],
    ['brackets in a document', asked(`{ a(b: ${'['.repeat(30_000)}) }`), 401],
    ['a large body', asked('x'.repeat(70_000)), 413],
    [
      'many parts',
      JSON.stringify({ query: '{ session { signedIn } }', a: Array(5_000).fill(1) }),
      400,
    ],
    ['the schema', asked('{ __schema { types { name } } }'), 401],
    ['an alias', asked('{ a: session { signedIn } b: session { signedIn } }'), 401],
    ['several at once', `[${asked('{ session { signedIn } }')}]`, 401],
  ])('%s is refused', async (_, body, status) => {
    expect((await post(api.url, body)).status).toBe(status);
  });

  it('packed bodies are refused, not unpacked', async () => {
    const packed = gzipSync(asked('{ session { signedIn } }'));
    const { status } = await post(api.url, packed, { 'content-encoding': 'gzip' });
    expect(status).toBe(415);
  });

  it('a document in the address is held to the same', async () => {
    const get = (query: string) =>
      fetch(`${api.url}/graphql?query=${encodeURIComponent(query)}`, {
        headers: { 'apollo-require-preflight': '1' },
      });
    expect((await get('{ __schema { types { name } } }')).status).toBe(401);
    expect((await get('{ session { signedIn } }')).status).toBe(200);
  });

  it('other routes that take a body read none', async () => {
    const path = '/export/print/jar-labels.pdf';
    expect(
      (await post(api.url, JSON.stringify({ fish: 'x'.repeat(80_000) }), {}, path)).status,
    ).toBe(413);
    expect((await post(api.url, '{}', {}, path)).status).toBe(401);
  });

  it('a foreign Host is refused before anything is read', async () => {
    const { status, body } = await post(api.url, asked('{ session { signedIn } }'), {
      host: 'evil.example:4700',
    });
    expect(status).toBe(421);
    expect(body).toContain('PUBLIC_ADDRESS');
  });

  it('a set-up that comes too late costs no hashing', async () => {
    const { body } = await post(api.url, setUp());
    expect(body).toContain('SET_UP_DONE');
  });
});

describe('after sign-in', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  it('the schema can be read, and depth is still bounded before it is parsed', async () => {
    expect(await api.graphql('{ __schema { queryType { name } } }')).toHaveProperty('__schema');
    const response = await api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '['.repeat(1_000_000),
    });
    expect(response.status).toBe(400);
  });

  const sent = async (body: string, path = '/graphql'): Promise<Answer> => {
    const response = await api.http(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body,
    });
    return { status: response.status, body: await response.text() };
  };
  /** More than a form holds, and less than a file may have. */
  const text = `tag,note\n${'A,x\n'.repeat(1_000_000)}`;
  const PREVIEW = 'previewImport(fileName: "a.csv", text: $text) { problems { code } }';

  it('a body as large as a file is taken with an operation that takes a file', async () => {
    const whole = await sent(asked(`mutation ($text: String!) { ${PREVIEW} }`, { text }));
    // That there are too many lines to wait for is its own answer.
    expect([whole.status, whole.body]).toEqual([200, expect.stringContaining('IMPORT_LONG')]);
  });

  it.each([
    ['with any other', '{ lines { id } }'],
    [
      'with a save',
      'mutation ($text: String!) { createLine(input: { code: "Z", name: $text }) { id } }',
    ],
    [
      'with another beside it',
      `mutation ($text: String!) { ${PREVIEW} createLine(input: { code: "Z", name: "Z" }) { id } }`,
    ],
  ])('and refused %s, which is not run', async (_, query) => {
    const refused = await sent(asked(query, { text }));
    expect([refused.status, refused.body]).toEqual([
      413,
      expect.stringMatching(/REQUEST_TOO_LARGE.*2 MB/),
    ]);
    expect(await api.graphql('{ lines { code } }')).toEqual({ lines: [] });
  });

  it('and on any other route', async () => {
    const body = JSON.stringify({ fish: 'x'.repeat(3_000_000) });
    expect((await sent(body, '/export/print/jar-labels.pdf')).status).toBe(413);
  });

  it('every form fits, all of its inputs at their limits', () => {
    const { schema } = api.served.app.get(GraphQLSchemaHost);
    const files = fileOperations(schema);
    const large = [schema.getQueryType(), schema.getMutationType()]
      .filter((root) => root != null)
      .flatMap((root) =>
        Object.values(root.getFields()).flatMap((operation) =>
          hostileRequests(root.name, operation, {})
            .filter(({ name }) => name === 'all at their limits' && !files.has(operation.name))
            .map(({ variables }) => ({
              name: operation.name,
              bytes: Buffer.byteLength(JSON.stringify(variables)),
            })),
        ),
      )
      // The document beside them is short.
      .filter(({ bytes }) => bytes > LARGEST_BODY - 20_000);
    expect(large).toEqual([]);
  });
});

describe('a first start behind a proxy on the same machine', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({
      signedIn: false,
      environment: { TRUST_PROXY: '1', PUBLIC_ADDRESS: 'https://fish.example' },
    });
  });
  afterAll(() => api.close());
  const proxied = { host: 'fish.example', 'x-forwarded-proto': 'https' };

  it('makes nobody the owner without the code of the console, whatever the proxy says or leaves out', async () => {
    for (const headers of [proxied, { ...proxied, 'x-forwarded-for': '127.0.0.1' }]) {
      expect((await post(api.url, setUp(), headers)).body).toContain('console');
      expect((await post(api.url, setUp({ code: 'AAAAA-AAAAA' }), headers)).body).toContain(
        'console',
      );
    }
    for (const act of ['loadDemo', 'openDemo']) {
      const { body } = await post(api.url, asked(`mutation { ${act} { signedIn } }`), proxied);
      expect(body).toContain('LOOPBACK_ONLY');
    }
    const { body } = await post(api.url, asked('{ session { codeNeeded loopback } }'), proxied);
    expect(JSON.parse(body)).toEqual({ data: { session: { codeNeeded: true, loopback: false } } });
  });

  it('takes the code as it is typed', async () => {
    const code = api.served.app.get(AccountsService).firstStartCode.toLowerCase().replace('-', ' ');
    expect((await post(api.url, setUp({ code }), proxied)).body).toBe(
      '{"data":{"setUp":{"signedIn":true}}}\n',
    );
  });
});

describe('a first start on a network, passwords over plain HTTP allowed', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ signedIn: false, environment: { PLAIN_HTTP: '1', HOST: '0.0.0.0' } });
  });
  afterAll(() => api.close());
  const at = (): string => api.url.replace('0.0.0.0', '127.0.0.1');

  it('a name turned to this machine gets nowhere, nor a page of another site', async () => {
    expect((await post(at(), setUp(), { host: 'evil.example:4700' })).status).toBe(421);
    const origin = { origin: 'http://evil.example' };
    expect((await post(at(), setUp(), origin)).body).toContain('console');
    expect((await post(at(), setUp(), { host: '192.168.1.20:4700' })).body).toContain('console');
  });
});
