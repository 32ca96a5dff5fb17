import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { discard, newFolder, postmasterPid, repository } from './processes.js';

const folders: string[] = [];
const children: ChildProcess[] = [];

afterEach(() => {
  for (const child of children.splice(0)) if (child.exitCode === null) child.kill('SIGKILL');
  for (const folder of folders.splice(0)) discard(folder);
});

const newDataFolder = (): string => {
  const folder = newFolder();
  folders.push(folder);
  return folder;
};

/** The built server in a group of its own, as a shell starts it: Ctrl-C reaches every process of the group. */
const start = (dataDir: string): ChildProcess => {
  const child = spawn(process.execPath, ['apps/api/dist/main.js'], {
    cwd: repository,
    env: { ...process.env, PORT: '0', DATA_DIR: dataDir, DATABASE_URL: '' },
    stdio: ['ignore', 'pipe', 'pipe'],
    detached: true,
  });
  children.push(child);
  return child;
};

const ended = (child: ChildProcess): Promise<number | null> =>
  new Promise((resolve) => child.once('exit', (code) => resolve(code)));

/** Sends the signal to the whole group at the moment that the words are told. */
const stopAt = (child: ChildProcess, words: RegExp, signal: NodeJS.Signals): void => {
  let said = '';
  let sent = false;
  const read = (chunk: Buffer): void => {
    said += chunk.toString();
    if (sent || !words.test(said)) return;
    sent = true;
    process.kill(-(child.pid ?? 0), signal);
  };
  child.stdout?.on('data', read);
  child.stderr?.on('data', read);
};

const clusterOf = (dataDir: string): string => join(dataDir, 'database', 'cluster');

const expectNoServer = (dataDir: string): void => {
  const lock = join(clusterOf(dataDir), 'postmaster.pid');
  const left = existsSync(lock) ? postmasterPid(clusterOf(dataDir)) : null;
  if (left !== null) process.kill(left, 'SIGINT');
  expect(left).toBeNull();
};

describe('Ctrl-C', () => {
  it.each([
    ['while the database is made', /Making an empty database/],
    ['when the database has started', /Database started/],
    ['on the line that tells the address', /is at http/],
  ])('%s leaves no database running, and the next start is whole', async (_, words) => {
    const dataDir = newDataFolder();
    const child = start(dataDir);
    stopAt(child, words, 'SIGINT');
    expect(await ended(child)).toBe(0);
    expectNoServer(dataDir);

    const again = start(dataDir);
    stopAt(again, /is at http/, 'SIGTERM');
    expect(await ended(again)).toBe(0);
    expectNoServer(dataDir);
  });

  it('at any moment of the start leaves no database running', async () => {
    const dataDir = newDataFolder();
    const first = start(dataDir);
    stopAt(first, /is at http/, 'SIGINT');
    await ended(first);
    for (const after of [0, 60, 150, 300, 600, 900]) {
      const child = start(dataDir);
      const end = ended(child);
      // Before its first own line of code it is Node itself that ends; nothing is started by then.
      await new Promise((resolve) => setTimeout(resolve, after));
      if (child.exitCode === null) process.kill(-(child.pid ?? 0), 'SIGINT');
      await end;
      expectNoServer(dataDir);
    }
  });

  it('pressed again and again still ends in order', async () => {
    const dataDir = newDataFolder();
    const child = start(dataDir);
    const end = ended(child);
    let pressed = 0;
    child.stdout?.on('data', () => {
      if (pressed++ < 5) process.kill(-(child.pid ?? 0), 'SIGINT');
    });
    expect(await end).toBe(0);
    expectNoServer(dataDir);
  });
});

describe('a closed terminal', () => {
  it('stops the server and its database', async () => {
    const dataDir = newDataFolder();
    const child = start(dataDir);
    stopAt(child, /is at http/, 'SIGHUP');
    expect(await ended(child)).toBe(0);
    expectNoServer(dataDir);
  });
});
