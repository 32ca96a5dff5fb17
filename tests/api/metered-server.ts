import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { AHEAD } from '../clock.js';
import { copyOf, type Template } from '../database/new-database.js';

const repository = fileURLToPath(new URL('../..', import.meta.url));
const meter = new URL('./loop-meter.mjs', import.meta.url).href;

/** What the server's main thread did since it was asked before. */
export interface Measured {
  /** The longest it worked between two turns of the event loop, ms of processor time. */
  readonly standMs: number;
  /** The most memory that the process held meanwhile, MB. */
  readonly peakMb: number;
}

export interface MeteredServer {
  readonly url: string;
  /** Null while it runs; else why it ended. */
  ended(): string | null;
  measure(): Promise<Measured>;
  /** What it wrote, for a failing test. */
  said(): string;
  stop(): Promise<void>;
}

const addressOf = (child: ChildProcess, said: () => string): Promise<string> =>
  new Promise((resolve, reject) => {
    child.once('exit', () => reject(new Error(`The server did not start: ${said()}`)));
    child.stdout?.on('data', () => {
      const url = /is at (http:\S+)/.exec(said())?.[1];
      if (url !== undefined) resolve(url);
    });
  });

/** The built server in a process of its own, on a database copied from a template, with the meter in it. */
export const startMetered = async (template: Template): Promise<MeteredServer> => {
  const dataDir = mkdtempSync(join(tmpdir(), 'linewright-metered-'));
  chmodSync(dataDir, 0o755);
  const database = await copyOf(template, join(dataDir, 'photos'));
  const child = spawn(
    process.execPath,
    ['--expose-gc', '--import', meter, 'apps/api/dist/main.js'],
    {
      cwd: repository,
      env: {
        ...{ ...process.env, PORT: '0', DATA_DIR: dataDir, DATABASE_URL: database.url },
        ...(AHEAD !== 0 && { TEST_CLOCK_AHEAD: String(AHEAD) }),
      },
      stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    },
  );
  let words = '';
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', (chunk: Buffer) => (words = (words + chunk.toString()).slice(-20_000)));
  const exit = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const url = await addressOf(child, () => words);
  const ended = (): string | null =>
    child.exitCode === null && child.signalCode === null
      ? null
      : `${child.exitCode ?? child.signalCode ?? ''}: ${words}`;
  return {
    url,
    ended,
    said: () => words,
    measure: () =>
      new Promise((resolve, reject) => {
        const gone = (): void => reject(new Error(`The server ended: ${words}`));
        child.once('exit', gone);
        child.once('message', (measured) => {
          child.off('exit', gone);
          resolve(measured as Measured);
        });
        child.send('measure', (error) => {
          if (error !== null) reject(error);
        });
      }),
    stop: async () => {
      if (ended() === null) child.kill('SIGTERM');
      await exit;
      await database.drop();
      rmSync(dataDir, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    },
  };
};
