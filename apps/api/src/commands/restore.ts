import 'reflect-metadata';
import { parseArgs } from 'node:util';
import { restoreBackup } from '../backup/restore-backup.js';
import { PhotoFiles } from '../photo-files/photo-files.js';
import { oneFile, readWith, runShell } from './run.js';

await runShell(
  () =>
    readWith('npm run restore -- FILE', () =>
      oneFile(parseArgs({ allowPositionals: true }).positionals),
    ),
  async (file, { asOwner, config, clock, signal }) => {
    const photos = new PhotoFiles(config, clock);
    const { madeAt, tables } = await asOwner((dataSource) =>
      restoreBackup({ dataSource, photos }, file, signal),
    );
    const rows = (table: string): number => tables.find((part) => part.table === table)?.rows ?? 0;
    process.stdout.write(
      `Restored as of ${madeAt}: ${rows('fish')} fish, ${rows('spawn')} spawns, ${rows('photo')} photos, ` +
        `${rows('record_history')} lines of history. Sign in with the password of then ("npm run password" sets another).\n`,
    );
    return 0;
  },
);
