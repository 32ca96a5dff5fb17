import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startEmbeddedDatabase } from '@linewright/embedded-database';

/** What a run's folder in the machine's folder for such things begins with. */
export const RUN = 'linewright-run-';
const OWNER = 'run.pid';

export const runs = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
};

const numberIn = (file: string): number | null => {
  const [first = ''] = existsSync(file) ? readFileSync(file, 'utf8').split('\n') : [];
  return /^\d+$/.test(first.trim()) ? Number(first) : null;
};

/** Says whose a run's folder is. */
export const markRun = (folder: string): void =>
  writeFileSync(join(folder, OWNER), `${process.pid}\n`);

/** Stops the database server of a run that was killed, and takes its folder away; one whose run goes on is left. */
export const sweepRun = async (folder: string): Promise<void> => {
  const owner = numberIn(join(folder, OWNER));
  if (owner === null || runs(owner)) return;
  const server = numberIn(join(folder, 'database', 'cluster', 'postmaster.pid'));
  if (server !== null && runs(server)) {
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
