import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { processIsAlive, processMark } from '../../db/embedded/src/process-mark.js';
import { markRun, sweepRun } from '../database/left-behind.js';
import { bundleOwner, discard, newFolder, Owner, postmasterPid } from './processes.js';

it('a run of the tests that was killed leaves its database running, and the next run sweeps it', async () => {
  const folder = newFolder();
  const program = newFolder();
  const owner = new Owner(await bundleOwner(program), folder);
  try {
    const { clusterDir } = await owner.next();
    const server = postmasterPid(clusterDir);
    markRun(folder);
    await sweepRun(folder);
    expect(processIsAlive(server)).toBe(true);
    const killed = processMark(owner.child.pid);
    await owner.kill();
    markRun(folder, killed);
    expect(processIsAlive(server)).toBe(true);
    await sweepRun(folder);
    // An orphan that has ended still has its number until the system notes it.
    await expect.poll(() => processIsAlive(server), { timeout: 200_000 }).toBe(false);
    expect(existsSync(folder)).toBe(false);
  } finally {
    owner.child.kill('SIGKILL');
    discard(folder);
    discard(program);
  }
});
