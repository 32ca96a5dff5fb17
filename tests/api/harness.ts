import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { machineClock } from '../../apps/api/src/clock/machine-clock.js';
import { readConfig } from '../../apps/api/src/config/config.js';
import { type Served, serve } from '../../apps/api/src/serve.js';
import { AHEAD, aheadTo } from '../clock.js';

export interface GraphqlAnswer<Data> {
  readonly data: Data | null;
  readonly errors?: readonly {
    readonly message: string;
    readonly extensions: { readonly code: string; readonly [key: string]: unknown };
  }[];
}

export interface RunningApi {
  readonly url: string;
  readonly served: Served;
  /** Posts an operation with this harness's session cookie; answers data and errors alike. */
  send<Data = Record<string, unknown>>(
    query: string,
    variables?: object,
  ): Promise<GraphqlAnswer<Data>>;
  /** Like `send`, for operations that must succeed. */
  graphql<Data = Record<string, never>>(query: string, variables?: object): Promise<Data>;
  http(path: string, init?: RequestInit): Promise<Response>;
  forgetSession(): void;
  close(): Promise<void>;
}

export const PASSWORD = 'correct-horse-pond';

const connect = (
  url: string,
  served: Served,
  zone: string | undefined,
  tidy: () => void,
): RunningApi => {
  let cookie = '';
  const http = async (path: string, init: RequestInit = {}): Promise<Response> => {
    const headers = new Headers(init.headers);
    if (cookie !== '') headers.set('cookie', cookie);
    if (zone !== undefined && !headers.has('linewright-zone')) headers.set('linewright-zone', zone);
    const response = await fetch(`${url}${path}`, { ...init, headers });
    const set = response.headers.get('set-cookie');
    if (set !== null) cookie = set.split(';')[0] ?? '';
    return response;
  };
  const send = async <Data>(
    query: string,
    variables: object = {},
  ): Promise<GraphqlAnswer<Data>> => {
    const response = await http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query, variables }),
    });
    return (await response.json()) as GraphqlAnswer<Data>;
  };
  return {
    url,
    served,
    http,
    send,
    graphql: async <Data>(query: string, variables?: object): Promise<Data> => {
      const { data, errors } = await send<Data>(query, variables);
      if (errors !== undefined || data === null) throw new Error(JSON.stringify(errors));
      return data;
    },
    forgetSession: () => {
      cookie = '';
    },
    close: async () => {
      await served.close();
      tidy();
    },
  };
};

/**
 * The API over HTTP on a real PostgreSQL: a fresh embedded server, or a fresh database on the server of
 * `TEST_DATABASE_URL`. `demo` loads the demo scenario; otherwise an owner is set up. Signed in either way
 * unless `signedIn` is false.
 */
export const startApi = async (
  options: {
    demo?: boolean;
    signedIn?: boolean;
    environment?: Record<string, string>;
    /** What time it is when it starts, ISO; that of the run when absent. */
    at?: string;
    /** Time zone that requests say they come from; none when absent, as from a program. */
    zone?: string;
  } = {},
): Promise<RunningApi> => {
  const dataDir = mkdtempSync(join(tmpdir(), 'linewright-api-'));
  // Started as root, the database server runs as someone else and has to reach its folder.
  chmodSync(dataDir, 0o755);
  const environment = {
    PORT: '0',
    DATA_DIR: dataDir,
    ...(await freshDatabase()),
    ...options.environment,
  };
  const clock = machineClock(options.at === undefined ? AHEAD : aheadTo(options.at));
  const served = await serve(readConfig(environment), () => {}, undefined, undefined, clock);
  const api = connect(served.url, served, options.zone, () => {
    rmSync(dataDir, { recursive: true, force: true });
  });
  if (options.signedIn === false) return api;
  if (options.demo === true) await api.graphql('mutation { loadDemo { signedIn } }');
  else {
    await api.graphql('mutation ($input: SetUpInput!) { setUp(input: $input) { signedIn } }', {
      input: { keeperName: 'Test keeper', password: PASSWORD },
    });
  }
  return api;
};

const freshDatabase = async (): Promise<Record<string, string>> => {
  const server = process.env['TEST_DATABASE_URL'];
  if (server === undefined) return {};
  const { Client } = await import('pg');
  const client = new Client({ connectionString: server });
  await client.connect();
  const name = `linewright_test_${process.pid}_${Math.random().toString(36).slice(2, 10)}`;
  await client.query(`CREATE DATABASE ${name}`);
  await client.end();
  const url = new URL(server);
  url.pathname = `/${name}`;
  return { DATABASE_URL: url.href };
};
