import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { startEmbeddedDatabase } from '@linewright/embedded-database';
import { type Stock, fillStock } from './stock.js';

/** What the server did since it was asked before. */
export interface Metered {
  /** The longest its main thread worked between two turns of the event loop, ms of processor time. */
  readonly standMs: number;
  readonly peakMb: number;
  readonly statements: number;
}

export interface BenchServer {
  readonly url: string;
  readonly stock: Stock;
  /** From its start until it answers, with the stock there. */
  readonly startMs: number;
  /** As the owner of the tables: the policies do not hold it. */
  readonly client: pg.Client;
  readonly measure: () => Promise<Metered>;
  readonly stop: () => Promise<void>;
}

const meters = ['tests/api/loop-meter.mjs', 'tests/bench/service/statement-meter.mjs'];

const started = async (
  env: Readonly<Record<string, string>>,
): Promise<{ child: ChildProcess; url: string }> => {
  const child = spawn(
    process.execPath,
    ['--expose-gc', ...meters.flatMap((one) => ['--import', `./${one}`]), 'apps/api/dist/main.js'],
    { env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'inherit', 'ipc'] },
  );
  const url = await new Promise<string>((resolve, reject) => {
    let said = '';
    child.once('exit', () => reject(new Error(`The server did not start: ${said}`)));
    child.stdout?.on('data', (chunk: Buffer) => {
      said = (said + chunk.toString()).slice(-20_000);
      const found = /is at (http:\S+)/.exec(said)?.[1];
      if (found !== undefined) resolve(found);
    });
  });
  return { child, url };
};

const ended = async (child: ChildProcess): Promise<void> => {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const exit = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGTERM');
  await exit;
};

const loadDemo = async (url: string): Promise<void> => {
  const answer = await fetch(`${url}/graphql`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'linewright-zone': 'UTC' },
    body: JSON.stringify({ query: 'mutation { loadDemo { signedIn } }' }),
  });
  if (!(await answer.text()).includes('"signedIn":true'))
    throw new Error('The demo was not loaded.');
};

/** The built server on an embedded database with the demo and so many fish more; started again once they are there. */
export const startBenchServer = async (fish: number, keepers: number): Promise<BenchServer> => {
  const dataDir = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
  chmodSync(dataDir, 0o755);
  const database = await startEmbeddedDatabase({ dataDir });
  const env = { DATABASE_URL: database.url, DATA_DIR: dataDir, PORT: '0' };
  const first = await started(env);
  await loadDemo(first.url);
  await ended(first.child);
  const client = new pg.Client({ connectionString: database.url });
  await client.connect();
  const stock = await fillStock(client, fish, keepers);
  const since = performance.now();
  const { child, url } = await started(env);
  const startMs = performance.now() - since;
  return {
    ...{ url, stock, startMs, client },
    measure: () =>
      new Promise((resolve, reject) => {
        child.once('message', (measured) => resolve(measured as Metered));
        child.send('measure', (error) => {
          if (error !== null) reject(error);
        });
      }),
    stop: async () => {
      await ended(child);
      await client.end();
      await database.stop();
      rmSync(dataDir, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    },
  };
};
