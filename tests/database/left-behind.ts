import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startEmbeddedDatabase } from '@linewright/embedded-database';
import { readPostmasterFile, servesFolder } from '../../db/embedded/src/postmaster-file.js';
import { markIsAlive, processMark } from '../../db/embedded/src/process-mark.js';

/** What a run's folder in the machine's folder for such things begins with. */
export const RUN = 'linewright-run-';

const ownerFile = (folder: string): string => join(folder, 'run.owner');

/** Says whose a run's folder is: by default the process that runs. */
export const markRun = (folder: string, mark = processMark()): void =>
  writeFileSync(ownerFile(folder), mark);

/** Stops the database server of a run that was killed, and takes its folder away; one whose run goes on is left. */
export const sweepRun = async (folder: string): Promise<void> => {
  const owner = ownerFile(folder);
  if (!existsSync(owner) || markIsAlive(readFileSync(owner, 'utf8'))) return;
  const cluster = join(folder, 'database', 'cluster');
  const server = readPostmasterFile(cluster);
  if (server !== undefined && servesFolder(server.pid, cluster)) {
    // Whoever joins a server and is the last to leave stops it.
    const joined = await startEmbeddedDatabase({ dataDir: folder });
    await joined.stop();
  }
  rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
};

/** What runs that were killed left on this machine. One that cannot be swept is somebody else's: a run goes on without. */
export const sweepRuns = async (): Promise<void> => {
  for (const name of readdirSync(tmpdir()))
    if (name.startsWith(RUN)) await sweepRun(join(tmpdir(), name)).catch(() => undefined);
};
