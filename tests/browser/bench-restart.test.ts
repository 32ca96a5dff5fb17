import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createHash, randomUUID, X509Certificate } from 'node:crypto';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  WAIT_MS,
  type RunningServer,
  asker,
  dataFolder,
  openBrowser,
  openContext,
  openPhone,
  startServer,
} from './harness.js';
import { PHONE, screenFaults } from './looking.js';
import { today } from '../clock.js';
import { newRecords } from '../new-records.js';

const pictures = join(tmpdir(), 'linewright-pictures');
const root = fileURLToPath(new URL('../..', import.meta.url));

/** A copy of the built program: its pages are changed, while other tests open those of the project. */
const ownProgram = (): string => {
  const program = mkdtempSync(join(tmpdir(), 'linewright-program-'));
  for (const built of ['apps/api/dist', 'apps/viewer/dist'])
    cpSync(join(root, built), join(program, built), { recursive: true });
  symlinkSync(join(root, 'node_modules'), join(program, 'node_modules'));
  for (const file of ['package.json', 'apps/api/package.json'])
    cpSync(join(root, file), join(program, file));
  return program;
};

const PASSWORD = 'a-long-enough-password';

/** What a phone is taught by the certificate that it got over plain HTTP: the authority's public key, as Chromium names it. */
const taughtAt = async (address: string): Promise<string> => {
  const bytes = await (await fetch(`${address}/house.crt`)).arrayBuffer();
  const key = new X509Certificate(Buffer.from(bytes)).publicKey;
  return createHash('sha256')
    .update(key.export({ type: 'spki', format: 'der' }))
    .digest('base64');
};

describe('the bench of a phone at home when the server and the browser are stopped', () => {
  const dataDir = dataFolder();
  const profile = mkdtempSync(join(tmpdir(), 'linewright-profile-'));
  const spawnId = randomUUID();
  const program = ownProgram();
  const built = (file: string): string => join(program, 'apps/viewer/dist', file);
  let server: RunningServer;
  let homePort = '0';
  let taught = '';
  let home = '';
  let phone: BrowserContext;
  let page: Page;

  const api = async <Data>(query: string, variables: object): Promise<Data> => {
    const response = await phone.request.post(`${server.url}/graphql`, {
      data: { query, variables },
    });
    const { data, errors } = (await response.json()) as { data: Data; errors?: unknown };
    if (errors !== undefined) throw new Error(JSON.stringify(errors));
    return data;
  };
  const start = (port: string) =>
    startServer({ dataDir, port }, { HOME_PORT: homePort }, undefined, program);
  const waits = (words: string) => page.getByRole('link', { name: words }).waitFor();
  const open = async (): Promise<void> => {
    phone = await openPhone(profile, taught);
    page = await phone.newPage();
    page.setDefaultTimeout(WAIT_MS);
  };

  beforeAll(async () => {
    mkdirSync(pictures, { recursive: true });
    server = await start('0');
    const ask = asker(server.url);
    await ask(
      `mutation { setUp(input: { personName: "Restart keeper", password: "${PASSWORD}" }) { signedIn } }`,
    );
    const { chooseHomeNetwork } = await ask<{ chooseHomeNetwork: { open: { port: number } } }>(
      'mutation { chooseHomeNetwork(open: true) { open { port } } }',
    );
    homePort = String(chooseHomeNetwork.open.port);
    home = `https://linewright.local:${homePort}`;
    taught = await taughtAt(`http://127.0.0.1:${homePort}`);
    await open();
    await api('mutation ($password: String!) { signIn(password: $password) { signedIn } }', {
      password: PASSWORD,
    });
    await newRecords({ graphql: api }).createSpawn({ id: spawnId, tag: 'V26-01' });
    await newRecords({ graphql: api }).addFishToSpawn({ spawnId, number: 4 });
  });
  afterAll(async () => {
    await phone?.close();
    await server?.stop();
    for (const folder of [dataDir, profile, program])
      rmSync(folder, { recursive: true, force: true });
  });

  it('is reached from the page that teaches the certificate, and says that everything works', async () => {
    await page.goto(`http://linewright.local:${homePort}`);
    await page.getByText('This phone trusts this machine now.').waitFor();
    expect(await screenFaults(page)).toEqual([]);
    await page.setViewportSize(PHONE);
    await page.screenshot({ path: join(pictures, 'phone-set-up.png'), fullPage: true });
    await page.getByRole('link', { name: 'Open Linewright' }).tap();
    await page.getByLabel(/^Password/).fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in', exact: true }).tap();
    await page.getByRole('heading', { name: 'Phone', level: 1 }).waitFor();
    for (const works of [
      'The machine answers: Yes',
      'The connection is secure: Yes',
      'The pages are kept on this device: Yes',
      'Entries can wait on this device: Yes',
    ])
      await page.getByText(works).waitFor();
    expect(new URL(page.url()).origin).toBe(home);
    expect(await screenFaults(page)).toEqual([]);
    await page.setViewportSize(PHONE);
    await page.screenshot({ path: join(pictures, 'phone-page.png'), fullPage: true });
  });

  it('names the certificate to a phone that went past the warning without it', async () => {
    const stranger = await openContext(await openBrowser(), {
      ...{ viewport: PHONE, ignoreHTTPSErrors: true },
    });
    const other = await stranger.newPage();
    other.setDefaultTimeout(WAIT_MS);
    await other.goto(`https://127.0.0.1:${homePort}/phone`);
    await other.getByLabel(/^Password/).fill(PASSWORD);
    await other.getByRole('button', { name: 'Sign in', exact: true }).click();
    await other.getByText('The pages are kept on this device: No').waitFor();
    await other.getByText(/does not trust the certificate/).waitFor();
    await stranger.close();
  });

  it('keeps entries through both, opens without the server, and sends when it is back', async () => {
    const { url } = server;
    await page.goto(`${home}/spawns/${spawnId}/sort`);
    await page.getByRole('article', { name: 'Fish V26-01-01' }).waitFor();
    await page.getByText(/opens without a connection/).waitFor();
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await server.stop();
    await page.getByRole('button', { name: 'Keep V26-01-01' }).tap();
    await waits('1 entry waits on this device');

    await phone.close();
    await open();
    await page.goto(`${home}/spawns/${spawnId}/sort`);
    await page.getByRole('article', { name: 'Fish V26-01-02' }).waitFor();
    await waits('1 entry waits on this device');
    await page.getByRole('button', { name: 'Hold V26-01-02' }).tap();
    await waits('2 entries wait on this device');

    server = await start(new URL(url).port);
    await page
      .getByRole('link', { name: /on this device$/ })
      .first()
      .waitFor({ state: 'detached' });
    const { spawn } = await api<{ spawn: { fish: { disposition: string; revision: number }[] } }>(
      'query ($id: ID!) { spawn(id: $id) { fish { disposition revision } } }',
      { id: spawnId },
    );
    expect(spawn.fish.map((each) => [each.disposition, each.revision])).toEqual([
      ['KEEPER', 2],
      ['HOLD', 2],
      ['UNSORTED', 1],
      ['UNSORTED', 1],
    ]);
  });

  it('sends what pages of an earlier version left on the device, under the name that scores had then', async () => {
    const traitId = await newRecords({ graphql: api }).createTrait({
      ...{ key: 'spread', name: 'Spread', kind: 'MEASURED', minimum: 0, maximum: 200 },
    });
    const { session, spawn } = await api<{
      session: { person: { id: string } };
      spawn: { fish: { id: string }[] };
    }>('query ($id: ID!) { session { person { id } } spawn(id: $id) { fish { id } } }', {
      id: spawnId,
    });
    const [first, second] = spawn.fish.map(({ id }) => id);
    const problem = { code: 'BAD_USER_INPUT', message: 'Field "scores" was not provided.' };
    const left = (fishId: string, value: number, state: object) => ({
      ...{ kind: 'scores', spawnId, subject: fishId, label: `Spread ${value}` },
      input: { fishId, scoredOn: today(), entries: [{ traitId, value, id: randomUUID() }] },
      ...{ id: randomUUID(), group: randomUUID(), keeperId: session.person.id },
      ...{ madeAt: `${today()}T01:00:00.000Z`, attempts: 1, ...state },
    });
    // A page of the same origin that opens no store of its own.
    await page.goto(`${home}/mark.svg`);
    await page.evaluate(
      async (entries) => {
        const done = <T>(request: IDBRequest<T>): Promise<T> =>
          new Promise((resolve, reject) => {
            request.onsuccess = () => resolve(request.result);
            request.onerror = () => reject(request.error ?? new Error('no reason given'));
          });
        await done(indexedDB.deleteDatabase('linewright'));
        const opening = indexedDB.open('linewright', 1);
        opening.onupgradeneeded = () => {
          const kept = { keyPath: 'sequence', autoIncrement: true };
          const store = opening.result.createObjectStore('entries', kept);
          store.createIndex('id', 'id', { unique: true });
          store.createIndex('keeper', 'keeperId');
          const sent = opening.result.createObjectStore('sent', { keyPath: 'id' });
          sent.createIndex('keeper', 'keeperId');
          opening.result.createObjectStore('taken', { keyPath: 'key' });
        };
        const database = await done(opening);
        const writing = database.transaction('entries', 'readwrite');
        for (const entry of entries) await done(writing.objectStore('entries').add(entry));
        database.close();
      },
      [left(first!, 161, { state: 'waiting' }), left(second!, 162, { state: 'refused', problem })],
    );
    await page.goto(`${home}/spawns/${spawnId}/sort`);
    const scores = async () => {
      const { spawn: now } = await api<{ spawn: { fish: { scores: { value: number }[] }[] } }>(
        'query ($id: ID!) { spawn(id: $id) { fish { scores { value } } } }',
        { id: spawnId },
      );
      return now.fish.map((each) => each.scores.map(({ value }) => value));
    };
    await expect.poll(scores).toEqual([[161], [162], [], []]);
  });

  it('offers newer pages, and takes them only when told to', async () => {
    const [worker, frame] = [built('sw.js'), built('index.html')];
    const was = [readFileSync(worker, 'utf8'), readFileSync(frame, 'utf8')] as const;
    // As a build leaves them: no compressed form is older than its file.
    for (const compressed of ['br', 'gz']) rmSync(`${frame}.${compressed}`);
    const kept = () => page.evaluate(async () => (await fetch('/index.html')).text());
    writeFileSync(frame, was[1].replace('<title>Linewright', '<title>Newer Linewright'));
    const newer = was[0].replace(/(url:"index.html",revision:")[0-9a-f]+/, '$1newer');
    expect(newer).not.toBe(was[0]);
    writeFileSync(worker, newer);
    await page.reload();
    await page.getByText('A newer Linewright is ready.').waitFor();
    expect(await kept()).not.toContain('Newer');
    await page.getByRole('button', { name: 'Load it now' }).tap();
    await page.getByText('A newer Linewright is ready.').waitFor({ state: 'detached' });
    await expect.poll(kept).toContain('Newer');
  });
});
