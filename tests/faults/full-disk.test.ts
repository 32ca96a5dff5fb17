import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { failureKind } from '@linewright/embedded-database';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Owner, bundleOwner, discard, isRoot, newFolder, query } from './processes.js';

let workshop = '';
let bundle = '';
/** Why no small disk can be had here; empty when it can. */
let obstacle = '';
const mounts: string[] = [];

function smallDisk(megabytes: number): string {
  const folder = join(workshop, `disk-${megabytes}`);
  mkdirSync(folder);
  const result = spawnSync('mount', [
    '-t',
    'tmpfs',
    '-o',
    `size=${megabytes}m,mode=755`,
    'tmpfs',
    folder,
  ]);
  if (result.status !== 0) throw new Error(`mount: ${result.stderr.toString().trim()}`);
  mounts.push(folder);
  return folder;
}

beforeAll(async () => {
  workshop = newFolder();
  bundle = await bundleOwner(workshop);
  if (!isRoot) obstacle = 'a small file system can be mounted by root only';
  else {
    try {
      spawnSync('umount', [smallDisk(1)]);
      mounts.length = 0;
    } catch (error) {
      obstacle = `a small file system cannot be mounted here (${error instanceof Error ? error.message : ''})`;
    }
  }
});
afterAll(() => {
  for (const mount of mounts) spawnSync('umount', ['-l', mount]);
  discard(workshop);
});

describe('a full disk', () => {
  it("is told by PostgreSQL's own words, wherever they come from", () => {
    for (const words of [
      'initdb: error: could not create directory "pg_wal": No space left on device',
      'FATAL:  could not write lock file "postmaster.pid": No space left on device',
      'could not extend file: Disk quota exceeded',
      'could not write to file: There is not enough space on the disk.',
    ]) {
      expect(failureKind(words), words).toBe('disk-full');
    }
    expect(
      failureKind('FATAL:  could not bind IPv4 address "127.0.0.1": Address already in use'),
    ).toBe('port');
  });

  it('at the first start gives EMBEDDED_DISK_FULL, and a start after making room works', async () => {
    if (obstacle !== '') {
      process.stderr.write(`full disk, first start: not played on a real disk: ${obstacle}\n`);
      expect(obstacle).toMatch(/cannot be mounted here|root only/);
      return;
    }
    const disk = smallDisk(100);
    const ballast = join(disk, 'ballast');
    writeFileSync(ballast, Buffer.alloc(85 * 2 ** 20));
    const said = await new Owner(bundle, join(disk, 'data')).next();
    expect(said).toMatchObject({ event: 'error', code: 'EMBEDDED_DISK_FULL' });
    expect(said.text).toMatch(/full.*Free some space.*DATA_DIR/s);
    rmSync(ballast);
    const owner = new Owner(bundle, join(disk, 'data'));
    expect((await owner.next()).event).toBe('ready');
    await owner.stop();
  });

  it('under a running server refuses rows, keeps those acknowledged, and goes on when there is room', async () => {
    if (obstacle !== '') {
      process.stderr.write(`full disk, running server: not played on a real disk: ${obstacle}\n`);
      expect(obstacle).toMatch(/cannot be mounted here|root only/);
      return;
    }
    const disk = smallDisk(90);
    const owner = new Owner(bundle, join(disk, 'data'));
    const { url } = await owner.next();
    await query(url, 'CREATE TABLE written (number integer, filler text)');
    let acknowledged = 0;
    let refusal: unknown;
    while (refusal === undefined && acknowledged < 200) {
      const insert = `INSERT INTO written SELECT ${acknowledged + 1}, string_agg(md5(n::text), '') FROM generate_series(1, 40000) AS n`;
      await query(url, insert).then(
        () => (acknowledged += 1),
        (error: unknown) => (refusal = error),
      );
    }
    expect(acknowledged).toBeGreaterThan(0);
    expect(refusal).toBeDefined();
    await owner.kill();
    spawnSync('mount', ['-o', 'remount,size=200m', disk]);
    const next = new Owner(bundle, join(disk, 'data'));
    const said = await next.next();
    expect(said.event).toBe('ready');
    const [row] = (await query(
      said.url,
      'SELECT count(DISTINCT number)::integer AS number FROM written',
    )) as { number: number }[];
    expect(row?.number).toBeGreaterThanOrEqual(acknowledged);
    await query(said.url, 'INSERT INTO written VALUES (0, NULL)');
    await next.stop();
  });
});
