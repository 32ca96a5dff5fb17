import { type ChildProcess, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import pg from 'pg';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD, type RunningApi, startApi } from '../api/harness.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The built server as a second process on the same database and the same folder of pictures. */
const startSecond = async (
  databaseUrl: string,
  photosDir: string,
): Promise<{ child: ChildProcess; url: string }> => {
  const child = spawn(process.execPath, ['apps/api/dist/main.js'], {
    cwd: root,
    env: { ...process.env, PORT: '0', DATABASE_URL: databaseUrl, PHOTOS_DIR: photosDir },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const url = await new Promise<string>((resolve, reject) => {
    let said = '';
    const read = (chunk: Buffer): void => {
      said += chunk.toString();
      const found = /is at (http:\S+)/.exec(said)?.[1];
      if (found !== undefined) resolve(found);
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    child.on('exit', (code) => reject(new Error(`It stopped with ${code}: ${said}`)));
  });
  return { child, url };
};

const signIn = async (url: string): Promise<string> => {
  const response = await fetch(`${url}/graphql`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      query: 'mutation ($password: String!) { signIn(password: $password) { signedIn } }',
      variables: { password: PASSWORD },
    }),
  });
  const cookie = response.headers.get('set-cookie')?.split(';')[0];
  if (cookie === undefined) throw new Error(await response.text());
  return cookie;
};

const until = async (holds: () => boolean | Promise<boolean>): Promise<void> => {
  const end = Date.now() + 30_000;
  while (!(await holds())) {
    if (Date.now() > end) throw new Error('It did not come about in 30 seconds.');
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
};

describe('a process killed between the file of a photo and its record', () => {
  let api: RunningApi;
  let photosDir: string;
  let child: ChildProcess | undefined;

  beforeAll(async () => {
    photosDir = mkdtempSync(join(tmpdir(), 'linewright-photos-'));
    api = await startApi({ environment: { PHOTOS_DIR: photosDir } });
  });
  afterAll(async () => {
    child?.kill('SIGKILL');
    await api?.close();
    rmSync(photosDir, { recursive: true, force: true });
  });

  const files = (): string[] =>
    readdirSync(photosDir, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => entry.name);

  it('leaves no record without its file, and sending again mends it through the other process', async () => {
    const { createFish } = await api.graphql<{ createFish: { id: string } }>(
      'mutation { createFish(input: { tag: "K-1", sex: MALE }) { id } }',
    );
    const second = await startSecond(api.served.databaseUrl, photosDir);
    child = second.child;
    const cookie = await signIn(second.url);
    const body = new Uint8Array(
      await sharp({ create: { width: 40, height: 30, channels: 3, background: '#a33' } })
        .jpeg()
        .toBuffer(),
    );
    const path = `/photos/${randomUUID()}?kind=fish&of=${createFish.id}`;

    // Holding the table lets the second process write the file and then wait with its row.
    const holder = new pg.Client({ connectionString: api.served.databaseUrl });
    await holder.connect();
    await holder.query('BEGIN');
    await holder.query('LOCK TABLE photo IN SHARE MODE');
    const upload = fetch(`${second.url}${path}`, {
      method: 'PUT',
      body,
      headers: { cookie, 'content-type': 'image/jpeg' },
    }).then(
      () => 'answered',
      () => 'cut off',
    );
    await until(() => files().filter((name) => /^[\da-f]{64}$/.test(name)).length === 1);
    await until(async () => {
      const { rows } = await holder.query(
        `SELECT 1 FROM pg_locks WHERE relation = 'photo'::regclass AND NOT granted`,
      );
      return rows.length > 0;
    });
    const gone = new Promise((resolve) => second.child.once('exit', resolve));
    second.child.kill('SIGKILL');
    await gone;
    expect(await upload).toBe('cut off');
    await holder.query('ROLLBACK');
    await until(async () => {
      const { rows } = await holder.query(
        `SELECT 1 FROM pg_stat_activity WHERE wait_event_type = 'Lock' AND datname = current_database()`,
      );
      return rows.length === 0;
    });
    const { rows } = await holder.query('SELECT id FROM photo');
    await holder.end();
    expect(rows).toEqual([]);
    expect(files().filter((name) => /^[\da-f]{8}-/.test(name))).toEqual([]);

    const again = await api.http(path, {
      method: 'PUT',
      body,
      headers: { 'content-type': 'image/jpeg' },
    });
    expect(again.status).toBe(200);
    expect(files().filter((name) => /^[\da-f]{64}$/.test(name))).toHaveLength(1);
    expect((await api.http(path.replace(/\?.*/, ''))).status).toBe(200);
  });
});
