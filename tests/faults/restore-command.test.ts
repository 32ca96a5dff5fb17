import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PhotoFiles } from '../../apps/api/src/photo-files/photo-files.js';
import { type RunningApi, startApi } from '../api/harness.js';
import { picturesOf, rowsOf } from '../api/whole-install.js';
import { repository } from './processes.js';

interface Ended {
  readonly code: number | null;
  readonly said: string;
}

/** A built command of the shell on the database and the photos of a running server. */
const run = (script: string, given: readonly string[], on: RunningApi): Promise<Ended> =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, [`apps/api/dist/${script}.js`, ...given], {
      cwd: repository,
      env: {
        ...process.env,
        DATABASE_URL: on.served.databaseUrl,
        PHOTOS_DIR: on.served.app.get(PhotoFiles).folder,
      },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let said = '';
    const read = (chunk: Buffer): void => void (said += chunk.toString());
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    child.on('close', (code) => resolve({ code, said }));
  });

describe('npm run backup, and npm run restore elsewhere', () => {
  let source: RunningApi;
  let fresh: RunningApi;
  let folder = '';
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'linewright-restore-'));
    [source, fresh] = await Promise.all([startApi({ demo: true }), startApi({ signedIn: false })]);
  });
  afterAll(async () => {
    await source?.close();
    await fresh?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('carry every record and every photo, which are then served as before', async () => {
    const made = await run('backup', ['--to', folder], source);
    expect([made.code, made.said]).toEqual([0, expect.stringContaining('read again and compared')]);
    const [file] = readdirSync(folder);
    const [rows, pictures] = [await rowsOf(source), picturesOf(source)];
    expect(Object.keys(pictures).length).toBeGreaterThan(0);
    const restored = await run('restore', [join(folder, file ?? '')], fresh);
    expect([restored.code, restored.said]).toEqual([0, expect.stringContaining('Restored as of')]);
    expect(await rowsOf(fresh)).toEqual(rows);
    expect(picturesOf(fresh)).toEqual(pictures);
    // By the product's own role, which has to be let in to the tables made anew.
    await fresh.graphql('mutation { openDemo { signedIn } }');
    const list =
      '{ fishList(first: 200) { totalCount edges { node { tag inbreedingCoefficient } } } }';
    expect(await fresh.graphql(list)).toEqual(await source.graphql(list));
  });

  it('leave an install that has records as it is', async () => {
    const [file] = readdirSync(folder);
    const before = await rowsOf(fresh);
    const refused = await run('restore', [join(folder, file ?? '')], fresh);
    expect(refused).toMatchObject({
      code: 1,
      said: expect.stringMatching(/There are records here already.*DATA_DIR/s) as unknown,
    });
    expect(await rowsOf(fresh)).toEqual(before);
  });
});
