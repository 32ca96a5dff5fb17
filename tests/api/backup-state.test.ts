import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asSystem } from '../../apps/api/src/access/acting.js';
import { BackupsService } from '../../apps/api/src/backup/backups.service.js';
import { verifyBackup } from '../../apps/api/src/backup/read-backup.js';
import { now } from '../clock.js';
import { type RunningApi, startApi } from './harness.js';

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
    await api.graphql('mutation { createFish(input: {tag: "B-1", sex: MALE}) { id } }');
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
