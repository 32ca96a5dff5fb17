import { spawn } from 'node:child_process';
import { renameSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { discard, newFolder, postmasterPid, repository } from './processes.js';

it('a server whose database cannot be started again ends, with the reason', async () => {
  const folder = newFolder();
  const cluster = join(folder, 'database', 'cluster');
  const child = spawn(process.execPath, ['apps/api/dist/main.js'], {
    cwd: repository,
    env: { ...process.env, PORT: '0', DATA_DIR: folder, DATABASE_URL: '' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  let spoilt = false;
  const read = (chunk: Buffer): void => {
    said += chunk.toString();
    if (spoilt || !/is at http/.test(said)) return;
    spoilt = true;
    // As a folder that somebody tidied.
    renameSync(join(cluster, 'global'), join(cluster, 'elsewhere'));
    process.kill(postmasterPid(cluster), 'SIGKILL');
  };
  child.stdout.on('data', read);
  child.stderr.on('data', read);
  try {
    const code = await new Promise((resolve) => child.once('exit', resolve));
    expect(code).toBe(1);
    expect(said).toMatch(/The database server is gone and cannot be started again/);
    expect(said).toMatch(/pg_control/);
  } finally {
    child.kill('SIGKILL');
    discard(folder);
  }
});
