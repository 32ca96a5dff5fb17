import { mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { asSystem } from '../../apps/api/src/access/acting.js';
import { BackupsService } from '../../apps/api/src/backup/backups.service.js';
import { DailyBackup } from '../../apps/api/src/backup/daily-backup.js';
import { verifyBackup } from '../../apps/api/src/backup/read-backup.js';
import { backupName } from '../../apps/api/src/backup/rotation.js';
import { now } from '../clock.js';
import { type RunningApi, startApi } from './harness.js';
import { newRecords } from '../new-records.js';

const STATE = `{ backupState { folder sameDisk underWay demo failed { message }
  backups { id kind fileName bytes there at } } }`;

interface State {
  backupState: {
    folder: string;
    sameDisk: boolean | null;
    underWay: boolean;
    failed: { message: string } | null;
    backups: { id: string; kind: string; fileName: string; bytes: number; there: boolean }[];
  };
}

describe('backups', () => {
  let api: RunningApi;
  let outside = '';
  beforeAll(async () => {
    outside = mkdtempSync(join(tmpdir(), 'linewright-backup-dir-'));
    api = await startApi({ environment: { BACKUP_DIR: join(outside, 'kept') } });
  });
  afterAll(async () => {
    await api.close();
    rmSync(outside, { recursive: true, force: true });
  });

  const state = async () => (await api.graphql<State>(STATE)).backupState;
  const atRest = async () => {
    await expect.poll(async () => (await state()).underWay).toBe(false);
    return state();
  };
  const daily = (now: Date) =>
    asSystem('backup', () => api.served.app.get(BackupsService).daily(now));

  it('need a session, for the file too', async () => {
    const without = await fetch(`${api.url}/export/backup/00000000-0000-4000-8000-000000000000`);
    expect(without.status).toBe(401);
  });

  it('are not made by themselves of an install without fish', async () => {
    await daily(new Date(now()));
    expect((await atRest()).backups).toEqual([]);
  });

  it('are made on demand, told, and taken along whole', async () => {
    await newRecords(api).createFish({ tag: 'B-1', sex: 'MALE' });
    await api.graphql('mutation { makeBackup { underWay } }');
    const { backups, failed, folder } = await atRest();
    expect(failed).toBeNull();
    expect(folder).toBe(join(outside, 'kept'));
    expect(backups).toMatchObject([{ kind: 'ASKED', there: true }]);
    const response = await api.http(`/export/backup/${backups[0]?.id}`);
    expect(response.headers.get('content-disposition')).toContain(backups[0]?.fileName);
    const taken = join(outside, 'taken.zip');
    writeFileSync(taken, new Uint8Array(await response.arrayBuffer()));
    const manifest = await verifyBackup(taken);
    expect(manifest.tables.find(({ table }) => table === 'fish')?.rows).toBe(1);
  });

  it('are made by themselves once each day of use, by one of several that look at once', async () => {
    const made = (await state()).backups.length;
    const today = new Date(now());
    await daily(today);
    expect((await atRest()).backups).toHaveLength(made);
    const tomorrow = new Date(today.getTime() + 26 * 60 * 60 * 1000);
    await Promise.all([daily(tomorrow), daily(tomorrow), daily(tomorrow)]);
    const { backups } = await atRest();
    expect(backups).toHaveLength(made + 1);
    expect(backups[0]?.kind).toBe('DAILY');
    expect(readdirSync(join(outside, 'kept')).sort()).toEqual(
      backups.map((backup) => backup.fileName).sort(),
    );
  });

  it('that are gone from the folder, or fail, are told', async () => {
    const { backups } = await state();
    rmSync(join(outside, 'kept'), { recursive: true });
    expect((await state()).backups[0]?.there).toBe(false);
    expect((await api.http(`/export/backup/${backups[0]?.id}`)).status).toBe(404);
    writeFileSync(join(outside, 'kept'), 'a file where the folder was');
    await api.graphql('mutation { makeBackup { underWay } }');
    const { failed } = await atRest();
    expect(failed?.message).toMatch(/cannot be written.*BACKUP_DIR/);
    rmSync(join(outside, 'kept'));
    await api.graphql('mutation { makeBackup { underWay } }');
    expect((await atRest()).failed).toBeNull();
  });
});

describe('the day of a backup', () => {
  // A day later where the owner is than where most servers stand.
  const AT = '2026-03-14T11:30:00Z';
  let api: RunningApi;
  let folder = '';
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'linewright-backup-zone-'));
    api = await startApi({
      ...{ environment: { BACKUP_DIR: folder }, at: AT, zone: 'Pacific/Auckland' },
    });
    await newRecords(api).createFish({ tag: 'Z-1', sex: 'MALE' });
  });
  afterAll(async () => {
    await api.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('is that of the owner, whether it was asked for or began of itself, and ends with their midnight', async () => {
    const daily = (at: string) =>
      asSystem('backup', () => api.served.app.get(BackupsService).daily(new Date(at)));
    const state = async () => (await api.graphql<State>(STATE)).backupState;
    const made = async () => {
      await expect.poll(async () => (await state()).underWay).toBe(false);
      return (await state()).backups.map(
        ({ kind, fileName }) => `${kind} ${fileName.slice(0, 24)}`,
      );
    };
    await daily(AT);
    expect(await made()).toEqual(['DAILY linewright-2026-03-15-00']);
    await daily('2026-03-15T10:59:00Z');
    expect(await made()).toHaveLength(1);
    await daily('2026-03-15T11:01:00Z');
    expect(await made()).toHaveLength(2);
    await api.graphql('mutation { makeBackup { underWay } }');
    expect((await made())[0]).toBe('ASKED linewright-2026-03-15-00');
  });
});

describe('the backup of the day', () => {
  let api: RunningApi;
  let folder = '';
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'linewright-backup-day-'));
    api = await startApi({ environment: { BACKUP_DIR: folder } });
    await newRecords(api).createFish({ tag: 'D-1', sex: 'MALE' });
  });
  afterAll(async () => {
    await api.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const dailyOf = (back: number): string =>
    backupName(
      new Date(Date.UTC(2020, 2, 29) - back * 24 * 60 * 60 * 1000).toISOString().slice(0, 10),
      '08:15:00',
      true,
    );

  it('begins of itself while the server runs, and clears those that have had their time', async () => {
    const asked = backupName('2020-01-01', '10:00:00', false);
    const others = ['notes.txt', asked, '.unfinished-7-1', '.unfinished-8-2'];
    for (const name of [...Array.from({ length: 60 }, (_, back) => dailyOf(back)), ...others])
      writeFileSync(join(folder, name), '');
    // Left by a process that was killed days ago.
    const long = (now() - 3 * 24 * 60 * 60 * 1000) / 1000;
    utimesSync(join(folder, '.unfinished-7-1'), long, long);
    utimesSync(join(folder, '.unfinished-8-2'), now() / 1000, now() / 1000);
    mkdirSync(join(folder, 'own'));

    const daily = api.served.app.get(DailyBackup);
    daily.onModuleDestroy();
    vi.useFakeTimers({ toFake: ['setTimeout', 'setInterval', 'clearTimeout', 'clearInterval'] });
    try {
      daily.onApplicationBootstrap();
      vi.advanceTimersByTime(60_000);
      daily.onModuleDestroy();
    } finally {
      vi.useRealTimers();
    }
    const state = async () => (await api.graphql<State>(STATE)).backupState;
    await expect.poll(async () => (await state()).backups).toMatchObject([{ kind: 'DAILY' }]);
    await expect.poll(async () => (await state()).underWay).toBe(false);
    const [made] = (await state()).backups;
    // 29 March 2020 was a Sunday: six days beside today, and the ends of the two weeks before.
    const kept = [0, 1, 2, 3, 4, 5, 7, 14].map(dailyOf);
    expect(readdirSync(folder).sort()).toEqual(
      [made?.fileName, ...kept, 'notes.txt', asked, '.unfinished-8-2', 'own'].sort(),
    );
  });
});
