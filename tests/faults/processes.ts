import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import pg from 'pg';
import { build } from 'vite';

export const repository = fileURLToPath(new URL('../..', import.meta.url));
export const isRoot = process.getuid?.() === 0;

/** What the owner process said about its start. */
export interface Said {
  readonly event: 'ready' | 'stopped' | 'error' | 'log';
  readonly url: string;
  readonly attached: boolean;
  readonly clusterDir: string;
  readonly port: number;
  readonly code: string;
  readonly text: string;
}

/** Bundles the owner process the way the API is bundled, so that plain Node runs it; returns the file. */
export async function bundleOwner(folder: string): Promise<string> {
  await build({
    root: repository,
    configFile: false,
    logLevel: 'error',
    resolve: { conditions: ['linewright-source'] },
    ssr: {
      noExternal: true,
      external: ['pg-native'],
      resolve: { conditions: ['linewright-source'] },
    },
    build: {
      ssr: join(repository, 'tests', 'faults', 'owner-process.ts'),
      outDir: folder,
      emptyOutDir: false,
      rolldownOptions: { output: { entryFileNames: 'owner.mjs' } },
    },
  });
  return join(folder, 'owner.mjs');
}

/** A new folder that every account may enter. */
export function newFolder(parent: string = tmpdir()): string {
  const folder = mkdtempSync(join(parent, 'linewright-faults-'));
  chmodSync(folder, 0o755);
  return folder;
}

export interface OwnerOptions {
  readonly uid?: number;
  readonly cwd?: string;
  readonly port?: number;
  readonly env?: Readonly<Record<string, string>>;
}

/** One running owner process. */
export class Owner {
  readonly child: ChildProcess;
  private readonly said: Said[] = [];
  private wake: () => void = () => undefined;

  constructor(bundle: string, dataDir: string, options: OwnerOptions = {}) {
    const port = options.port === undefined ? [] : [String(options.port)];
    this.child = spawn(process.execPath, [bundle, dataDir, ...port], {
      cwd: options.cwd ?? repository,
      stdio: ['pipe', 'pipe', 'inherit'],
      env: { ...process.env, ...options.env },
      ...(options.uid === undefined ? {} : { uid: options.uid, gid: options.uid }),
    });
    // It may have ended by itself when it is told to.
    this.child.stdin?.on('error', () => undefined);
    if (!this.child.stdout) throw new Error('no output');
    createInterface({ input: this.child.stdout }).on('line', (line) => {
      this.said.push(JSON.parse(line) as Said);
      this.wake();
    });
    this.child.on('exit', () => {
      this.wake();
    });
  }

  /** The first ready, stopped or error line not yet taken. */
  async next(): Promise<Said> {
    for (;;) {
      const index = this.said.findIndex((line) => line.event !== 'log');
      const [line] = index < 0 ? [] : this.said.splice(index, 1);
      if (line) return line;
      if (!this.isRunning) throw new Error('the owner ended without a word');
      await new Promise<void>((resolve) => (this.wake = resolve));
    }
  }

  get isRunning(): boolean {
    return this.child.exitCode === null && this.child.signalCode === null;
  }

  async stop(): Promise<Said> {
    this.child.stdin?.write('stop\n');
    return this.next();
  }

  async kill(): Promise<void> {
    const gone = new Promise((resolve) => this.child.once('exit', resolve));
    this.child.kill('SIGKILL');
    await gone;
  }
}

/** Runs statements on a connection of its own and returns the last one's rows. */
export async function query(url: string, ...statements: string[]): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => undefined);
  await client.connect();
  try {
    let rows: unknown[] = [];
    for (const statement of statements) rows = (await client.query<object>(statement)).rows;
    return rows;
  } finally {
    await client.end().catch(() => undefined);
  }
}

export function postmasterPid(clusterDir: string): number {
  return Number(readFileSync(join(clusterDir, 'postmaster.pid'), 'utf8').split('\n')[0]);
}

/** Deletes a test's folder once no server of it runs. */
export function discard(folder: string): void {
  rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
}
