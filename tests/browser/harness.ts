import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright-core';
import { AHEAD, ZONE } from '../clock.js';
import { PHONE } from './looking.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Where the browser run leaves its pictures; the README's picture is copied from here. */
export const pictures = join(root, 'docs', 'pictures');

const systemBrowsers = [
  process.env['CHROMIUM_PATH'],
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

const quiet = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const carriedBrowser = async (): Promise<string> => {
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new Error(
      'No Chromium was found: install Chromium or Chrome, or name one with CHROMIUM_PATH, and run the tests again.',
    );
  }
  // The package unpacks its libraries only where it believes itself on that runtime.
  process.env['AWS_LAMBDA_JS_RUNTIME'] ??= 'nodejs20.x';
  const cache = join(root, 'node_modules', '.cache', 'linewright-chromium');
  mkdirSync(cache, { recursive: true });
  process.env['TMPDIR'] = cache;
  const { default: carried } = await import('@sparticuz/chromium');
  const path = await carried.executablePath();
  // The carried font settings name /tmp/fonts; the fonts were unpacked here, and without one the browser dies.
  const settings = join(cache, 'fonts-here.conf');
  writeFileSync(
    settings,
    `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>${cache}/fonts</dir><cachedir>${cache}/fonts-cache</cachedir></fontconfig>`,
  );
  process.env['FONTCONFIG_FILE'] = settings;
  return path;
};

/** A Chromium of the system, or the one carried in an npm package; fails with what to install, never skips. */
export const browserPath = async (): Promise<string> =>
  systemBrowsers.find((path) => path !== undefined && path !== '' && existsSync(path)) ??
  (await carriedBrowser());

export const openBrowser = async (): Promise<Browser> =>
  chromium.launch({ executablePath: await browserPath(), args: quiet });

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

/** A browser that keeps what it stored in `folder`: closed and opened again it is the same keeper's phone. */
export const openPhone = async (folder: string): Promise<BrowserContext> =>
  onTheDay(
    await chromium.launchPersistentContext(folder, {
      executablePath: await browserPath(),
      args: quiet,
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

/** The built server as a keeper starts it, on a database of its own unless it is told to go on with one. */
export const startServer = async (
  goOn: { dataDir: string; port: string } | null = null,
  settings: Readonly<Record<string, string>> = {},
): Promise<RunningServer> => {
  const dataDir = goOn?.dataDir ?? dataFolder();
  const child = spawn(process.execPath, ['apps/api/dist/main.js'], {
    cwd: root,
    // A server stands where it stands: days are those of the person before the browser.
    env: {
      ...process.env,
      ...(AHEAD !== 0 && { TEST_CLOCK_AHEAD: String(AHEAD) }),
      TZ: 'UTC',
      PORT: goOn?.port ?? '0',
      DATA_DIR: dataDir,
      DATABASE_URL: '',
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

/** A page of a browser before a server of its own; nothing is opened in it yet. Pages kept on the device are off. */
export const openPage = async (
  options: BrowserContextOptions,
  settings: Readonly<Record<string, string>> = {},
): Promise<OpenPage> => {
  const [server, browser] = await Promise.all([startServer(null, settings), openBrowser()]);
  const context = await openContext(browser, { serviceWorkers: 'block', ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  return {
    server,
    page,
    faults,
    stop: async () => {
      await browser.close();
      await server.stop();
    },
  };
};

/** Opens the demo on an empty server as a newcomer does. */
export const openDemo = async ({ page, server }: OpenPage): Promise<void> => {
  await page.goto(server.url);
  await page.getByRole('button', { name: /demo/i }).first().click();
  await page.getByRole('heading', { name: 'Fish', level: 1 }).waitFor();
};
