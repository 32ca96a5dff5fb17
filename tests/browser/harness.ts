import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
  type Download,
} from 'playwright-core';
import { AHEAD, ZONE } from '../clock.js';
import { workOutAnswers } from '../database/demo-answers.js';
import { copyOf, demoKind, EMPTY, type Template, templateOf } from '../database/new-database.js';
import { browserProgram, quiet } from './browser-program.js';
import { PHONE } from './looking.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Where the browser run leaves its pictures; the README's picture is copied from here. */
export const pictures = join(root, 'docs', 'pictures');

/** Against what never comes; how long a page takes is no test of it. */
export const WAIT_MS = 200_000;

let browser: Promise<Browser> | null = null;

/** One browser for all files of a worker, whose contexts know nothing of each other: close those, not it. It ends with the worker. */
export const openBrowser = (): Promise<Browser> =>
  (browser ??= chromium.launch({ ...browserProgram(), args: quiet }));

/** Puts the clock of a page ahead; it goes on ticking. */
const putAhead = (ahead: number): void => {
  const Machine = Date;
  globalThis.Date = class extends Machine {
    constructor(...given: [] | [string]) {
      if (given.length === 0) super(Machine.now() + ahead);
      else super(...given);
    }
    static override now(): number {
      return Machine.now() + ahead;
    }
  } as DateConstructor;
};

/** Where and when the person before the browser is: as the test says, on another day than the machine's if need be. */
const onTheDay = async (context: BrowserContext): Promise<BrowserContext> => {
  if (AHEAD !== 0) await context.addInitScript(putAhead, AHEAD);
  return context;
};

/** A context on the day and in the time zone of the run. */
export const openContext = async (
  browser: Browser,
  options: BrowserContextOptions,
): Promise<BrowserContext> => onTheDay(await browser.newContext({ timezoneId: ZONE, ...options }));

/**
 * A browser that keeps what it stored in `folder`: closed and opened again it is the same keeper's phone. It trusts what the authority
 * signed that it was taught (SHA-256 of its public key in base64), nothing else, and finds this machine by its name at home.
 */
export const openPhone = async (folder: string, taught: string): Promise<BrowserContext> =>
  onTheDay(
    await chromium.launchPersistentContext(folder, {
      ...browserProgram(),
      args: [
        ...quiet,
        `--ignore-certificate-errors-spki-list=${taught}`,
        '--host-resolver-rules=MAP linewright.local 127.0.0.1',
      ],
      viewport: PHONE,
      hasTouch: true,
      timezoneId: ZONE,
    }),
  );

export interface RunningServer {
  readonly url: string;
  /** What it printed on its console so far. */
  said(): string;
  stop(): Promise<void>;
}

const firstAddress = (child: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = '';
    const read = (chunk: Buffer): void => {
      said += chunk.toString();
      const match = /is at (http:\S+)/.exec(said);
      if (match?.[1] !== undefined) resolve(match[1]);
    };
    child.stdout?.on('data', read);
    child.stderr?.on('data', read);
    child.on('exit', (code) => {
      reject(new Error(`The server stopped with ${code} before it was ready: ${said}`));
    });
  });

/** A folder for records that outlive one server; whoever makes it removes it. */
export const dataFolder = (): string => {
  const dataDir = mkdtempSync(join(tmpdir(), 'linewright-browser-'));
  // Started as root, the database server runs as someone else and has to reach its folder.
  chmodSync(dataDir, 0o755);
  return dataDir;
};

type Settings = Readonly<Record<string, string>>;

const emptyTemplate = (): Promise<Template> =>
  templateOf(EMPTY, async (url) => {
    await (await startServer(null, { DATABASE_URL: url })).stop();
  });

/** Asks a server with the session that it gave before. */
export const asker = (url: string): (<Data>(query: string) => Promise<Data>) => {
  let cookie = '';
  return async (query) => {
    const answer = await fetch(`${url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'linewright-zone': ZONE, cookie },
      body: JSON.stringify({ query }),
    });
    cookie = answer.headers.get('set-cookie')?.split(';')[0] ?? cookie;
    const { data, errors } = (await answer.json()) as { data: never; errors?: unknown };
    if (errors !== undefined) throw new Error(JSON.stringify(errors));
    return data;
  };
};

/** With its breeding values, worked out once for the run: a copy brings the answers along. */
const demoTemplate = async (): Promise<Template> =>
  templateOf(
    demoKind(),
    async (url, photosDir) => {
      const server = await startServer(null, { DATABASE_URL: url, PHOTOS_DIR: photosDir });
      const ask = asker(server.url);
      await ask('mutation { loadDemo { signedIn } }');
      await workOutAnswers(ask);
      await server.stop();
    },
    await emptyTemplate(),
  );

/**
 * The built server as a keeper starts it, on a database of its own on the run's server; told to go on with a folder, on the embedded
 * database in there.
 */
export const startServer = async (
  goOn: { dataDir: string; port: string } | null = null,
  settings: Settings = {},
  template = emptyTemplate,
  program = root,
): Promise<RunningServer> => {
  const dataDir = goOn?.dataDir ?? dataFolder();
  const given = goOn !== null || settings['DATABASE_URL'] !== undefined;
  const database = given ? null : await copyOf(await template(), join(dataDir, 'photos'));
  const child = spawn(process.execPath, ['apps/api/dist/main.js'], {
    cwd: program,
    // A server stands where it stands: days are those of the person before the browser.
    env: {
      ...process.env,
      ...(AHEAD !== 0 && { TEST_CLOCK_AHEAD: String(AHEAD) }),
      TZ: 'UTC',
      PORT: goOn?.port ?? '0',
      DATA_DIR: dataDir,
      DATABASE_URL: database?.url ?? '',
      ...settings,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  child.stdout.on('data', (chunk: Buffer) => (said += chunk.toString()));
  const url = await firstAddress(child);
  return {
    url,
    said: () => said,
    stop: async () => {
      const ended = new Promise((resolve) => child.on('exit', resolve));
      child.kill('SIGINT');
      await ended;
      await database?.drop();
      if (goOn === null) rmSync(dataDir, { recursive: true, force: true });
    },
  };
};

export interface OpenPage {
  readonly server: RunningServer;
  readonly page: Page;
  /** Errors that the page's own code threw so far. */
  readonly faults: readonly string[];
  stop(): Promise<void>;
}

const pageBefore = async (
  server: RunningServer,
  options: BrowserContextOptions,
): Promise<OpenPage> => {
  const context = await openContext(await openBrowser(), { serviceWorkers: 'block', ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(WAIT_MS);
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  return {
    server,
    page,
    faults,
    stop: async () => {
      await context.close();
      await server.stop();
    },
  };
};

/** A page of a browser before a server of its own; nothing is opened in it yet. Pages kept on the device are off. */
export const openPage = async (
  options: BrowserContextOptions,
  settings: Settings = {},
): Promise<OpenPage> => pageBefore(await startServer(null, settings), options);

/** Opens the demo as a newcomer does: on an empty server it is loaded first. */
export const openDemo = async ({ page, server }: OpenPage): Promise<void> => {
  await page.goto(server.url);
  await page.getByRole('button', { name: /demo/i }).first().click();
  await page.getByRole('heading', { name: 'Fish', level: 1 }).waitFor();
};

/** A page of a browser before a demo of its own, which was loaded beforehand. */
export const openDemoPage = async (options: BrowserContextOptions): Promise<OpenPage> => {
  const opened = await pageBefore(await startServer(null, {}, demoTemplate), options);
  await openDemo(opened);
  return opened;
};

/** The bytes of what a page downloaded. */
export const downloaded = async (download: Download): Promise<Buffer> => {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-download-'));
  try {
    await download.saveAs(join(folder, 'file'));
    return readFileSync(join(folder, 'file'));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
