import 'reflect-metadata';
import { parseArgs } from 'node:util';
import { asSystem } from '../access/acting.js';
import { beginBackup } from '../backup/make-backup.js';
import { PhotoFiles } from '../photo-files/photo-files.js';
import { CommandError } from './owner.js';
import { fromWhereOneStands, readWith, runShell } from './run.js';

const MEGABYTE = 1_000_000;

await runShell(
  () =>
    readWith('npm run backup [-- --to FOLDER]', () => {
      const { to } = parseArgs({ options: { to: { type: 'string' } } }).values;
      return to === undefined ? undefined : fromWhereOneStands(to);
    }),
  async (to, { dataSource, config, clock, signal }) => {
    const begun = await asSystem('backup', () =>
      beginBackup({
        dataSource,
        photos: new PhotoFiles(config, clock),
        kind: 'shell',
        folder: to ?? config.backupDir,
        now: () => clock.now(),
        zone: clock.zone(),
        signal,
      }),
    );
    if (begun === null) throw new CommandError('Nothing was backed up.');
    const { path, bytes, manifest } = await begun.done;
    const rows = (table: string): number =>
      manifest.tables.find((part) => part.table === table)?.rows ?? 0;
    process.stdout.write(
      `${path}\n${(bytes / MEGABYTE).toFixed(1)} MB, read again and compared: ${rows('fish')} fish, ${rows('spawn')} spawns, ` +
        `${rows('photo')} photos, ${rows('record_history')} lines of history.\n`,
    );
    const { photosAmiss } = manifest;
    if (photosAmiss.length > 0)
      process.stderr.write(
        `The files of ${photosAmiss.length} pictures are missing or damaged in ${config.photosDir}: ${photosAmiss.slice(0, 5).join(', ')}\n`,
      );
    return 0;
  },
);
