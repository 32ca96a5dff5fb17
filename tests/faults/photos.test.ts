import type { ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from '../api/harness.js';
import { killNow, signIn, startSecond, until } from './second-process.js';
import { newRecords } from '../new-records.js';

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
    const fishId = await newRecords(api).createFish({ tag: 'K-1', sex: 'MALE' });
    const second = await startSecond(api.served.databaseUrl, { PHOTOS_DIR: photosDir });
    child = second.child;
    const cookie = await signIn(second.url);
    const body = new Uint8Array(
      await sharp({ create: { width: 40, height: 30, channels: 3, background: '#a33' } })
        .jpeg()
        .toBuffer(),
    );
    const path = `/photos/${randomUUID()}?kind=fish&of=${fishId}`;

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
    await killNow(second.child);
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
