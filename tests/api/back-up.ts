import { DataSource } from 'typeorm';
import { asSystem } from '../../apps/api/src/access/acting.js';
import { beginBackup } from '../../apps/api/src/backup/make-backup.js';
import { restoreBackup } from '../../apps/api/src/backup/restore-backup.js';
import { PhotoFiles } from '../../apps/api/src/photo-files/photo-files.js';
import { now } from '../clock.js';
import { recordsOf, type RunningApi } from './harness.js';

export const dataSourceOf = (api: RunningApi): DataSource => api.served.app.get(DataSource);
export const photosOf = (api: RunningApi): PhotoFiles => api.served.app.get(PhotoFiles);
export const never = new AbortController().signal;

/** Writes a backup into a folder; answers where it is. */
export const backUp = async (api: RunningApi, folder: string): Promise<string> => {
  const begun = await asSystem('backup', () =>
    beginBackup({
      dataSource: dataSourceOf(api),
      photos: photosOf(api),
      kind: 'shell',
      zone: 'UTC',
      folder,
      now: () => new Date(now()),
      signal: never,
    }),
  );
  if (begun === null) throw new Error('not begun');
  return (await begun.done).path;
};

/** As the shell does it: as whoever owns the tables, since they are made anew. */
export const restore = async (api: RunningApi, file: string) =>
  restoreBackup({ dataSource: await recordsOf(api), photos: photosOf(api) }, file, never);
