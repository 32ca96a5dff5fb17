import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import type { Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { DataSource } from 'typeorm';
import { machineClock } from '../../apps/api/src/clock/machine-clock.js';
import { dataSourceOptions } from '../../apps/api/src/stock/data-source.js';
import { readConfig } from '../../apps/api/src/config/config.js';
import { openDatabase } from '../../apps/api/src/stock/open-database.js';
import { type Served, serve } from '../../apps/api/src/serve.js';
import { AHEAD, aheadTo } from '../clock.js';
import { workOutAnswers } from '../database/demo-answers.js';
import { copyOf, demoKind, EMPTY, type Template, templateOf } from '../database/new-database.js';

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

const opened = new WeakMap<RunningApi, Promise<DataSource>>();

/** The records themselves, as whoever owns the tables reaches them: no policy holds it, and nobody need be named. */
export const recordsOf = (api: RunningApi): Promise<DataSource> => {
  let records = opened.get(api);
  if (records === undefined) {
    const options = { ...dataSourceOptions(api.served.databaseUrl), driver: pg };
    records = new DataSource(options).initialize();
    opened.set(api, records);
  }
  return records;
};

export const PASSWORD = 'correct-horse-pond';

const connect = (
  url: string,
  served: Served,
  zone: string | undefined,
  tidy: () => Promise<void>,
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
  const api: RunningApi = {
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
      await (await opened.get(api))?.destroy();
      await served.close();
      await tidy();
    },
  };
  return api;
};

export interface ApiOptions {
  readonly demo?: boolean;
  readonly signedIn?: boolean;
  /** With `DATABASE_URL` in it, a further server on the database of another one. */
  readonly environment?: Record<string, string>;
  /** What time it is when it starts, ISO; that of the run when absent. */
  readonly at?: string;
  /** Time zone that requests say they come from; none when absent, as from a program. */
  readonly zone?: string;
  /** On an embedded PostgreSQL of its own, as a keeper starts it: for what tells of the database server itself. */
  readonly embedded?: boolean;
}

const quietly = async (environment: Record<string, string>, at?: string): Promise<Served> => {
  const clock = machineClock(at === undefined ? AHEAD : aheadTo(at));
  const config = readConfig({ PORT: '0', ...environment });
  const served = await serve(config, () => {}, undefined, undefined, clock);
  // What the product computes in threads is computed here between a request and the next: on a busy machine that takes longer than
  // an idle connection is kept, and the next request would meet one that was just closed.
  const server: Server = served.app.getHttpServer();
  server.keepAliveTimeout = 0;
  return served;
};

const emptyTemplate = (): Promise<Template> =>
  templateOf(EMPTY, async (url) => {
    const { close } = await openDatabase(readConfig({ DATABASE_URL: url }));
    await close();
  });

const SET_UP = 'mutation ($input: SetUpInput!) { setUp(input: $input) { signedIn } }';
const LOAD_DEMO = 'mutation { loadDemo { signedIn } }';

/** A database with the demo and its breeding values, opened by nobody yet; others are copied from it, by browser tests too. */
export const demoTemplate = async (): Promise<Template> =>
  templateOf(
    demoKind(),
    async (url, photosDir) => {
      const served = await quietly({ DATABASE_URL: url, PHOTOS_DIR: photosDir });
      const api = connect(served.url, served, undefined, async () => {});
      await api.graphql(LOAD_DEMO);
      await workOutAnswers((query) => api.graphql(query));
      await served.close();
    },
    await emptyTemplate(),
  );

/**
 * The API over HTTP on a real PostgreSQL, on a database of its own on the run's server. `demo` opens the demo scenario;
 * otherwise an owner is set up. Signed in either way unless `signedIn` is false, which leaves the database empty.
 */
export const startApi = async (options: ApiOptions = {}): Promise<RunningApi> => {
  const { signedIn = true, demo = false, embedded = false, environment = {}, at, zone } = options;
  const dataDir = mkdtempSync(join(tmpdir(), 'linewright-api-'));
  // Started as root, the database server runs as someone else and has to reach its folder.
  chmodSync(dataDir, 0o755);
  // Of any other day it is told anew.
  const ready = signedIn && demo && at === undefined && zone === undefined;
  const template = ready ? demoTemplate : emptyTemplate;
  const own = embedded || environment['DATABASE_URL'] !== undefined ? null : await template();
  const settings: Record<string, string> = { DATA_DIR: dataDir, ...environment };
  const photosDir = settings['PHOTOS_DIR'] ?? join(settings['DATA_DIR'] ?? dataDir, 'photos');
  const database = own === null ? null : await copyOf(own, photosDir);
  const served = await quietly(
    { ...(database !== null && { DATABASE_URL: database.url }), ...settings },
    at,
  );
  const api = connect(served.url, served, zone, async () => {
    await database?.drop();
    rmSync(dataDir, { recursive: true, force: true });
  });
  if (!signedIn) return api;
  if (ready && own !== null) await api.graphql('mutation { openDemo { signedIn } }');
  else if (demo) await api.graphql(LOAD_DEMO);
  else await api.graphql(SET_UP, { input: { personName: 'Test keeper', password: PASSWORD } });
  return api;
};
