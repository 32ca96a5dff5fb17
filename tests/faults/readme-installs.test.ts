import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD } from '../api/harness.js';
import { exchange, grant, pairUp, takeOffered } from '../api/paired-installs.js';
import { newRecords } from '../new-records.js';
import { AskingInstall } from './asking-install.js';
import { discard, newFolder, repository } from './processes.js';
import { killNow, signIn } from './second-process.js';

const read = (path: string): string => readFileSync(join(repository, path), 'utf8');

/** Commands that start an install, as the README has them: what is set before each, by name. */
const startsInReadme = (): Readonly<Record<string, string>>[] =>
  [...read('README.md').matchAll(/`((?:[A-Z_]+=\S+ )*)npm start`/g)].map(([, before = '']) =>
    Object.fromEntries(
      before
        .trim()
        .split(' ')
        .filter((one) => one !== '')
        .map((one) => one.split('=') as [string, string]),
    ),
  );

/** What `npm start` runs once it has built, which the run of the tests did before. */
const serverOfStart = (): string => {
  const { scripts } = JSON.parse(read('package.json')) as { scripts: { start: string } };
  const file = /&& node .*?(\S+\.js)$/.exec(scripts.start)?.[1];
  if (file === undefined) throw new Error(`npm start runs no file: ${scripts.start}`);
  return join(repository, file);
};

const freePort = (): Promise<number> =>
  new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => resolve(port));
    });
  });

/** An install started in a folder as somebody would who follows the README; its port is a free one in place of the printed one. */
class Install extends AskingInstall {
  private child: ChildProcess | null = null;
  url = '';

  constructor(
    readonly folder: string,
    readonly set: Readonly<Record<string, string>>,
  ) {
    super();
  }

  async start(personName: string): Promise<void> {
    const port = String(await freePort());
    const { DATABASE_URL: _url, DATA_DIR: _folder, PORT: _port, ...others } = process.env;
    const child = spawn(process.execPath, ['--enable-source-maps', serverOfStart()], {
      cwd: this.folder,
      env: { ...others, ...this.set, PORT: port },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    this.child = child;
    this.url = await new Promise<string>((resolve, reject) => {
      let said = '';
      const hear = (chunk: Buffer): void => {
        said += chunk.toString();
        const found = /is at (http:\S+)/.exec(said)?.[1];
        if (found !== undefined) resolve(found);
      };
      child.stdout.on('data', hear);
      child.stderr.on('data', hear);
      child.on('exit', (code) => reject(new Error(`It stopped with ${code}: ${said}`)));
    });
    expect(new URL(this.url).port).toBe(port);
    const input = { personName, password: PASSWORD };
    await this.graphql('mutation ($input: SetUpInput!) { setUp(input: $input) { signedIn } }', {
      input,
    });
    this.cookie = await signIn(this.url);
  }

  async stop(): Promise<void> {
    if (this.child !== null) await killNow(this.child);
  }
}

describe('two installs on one machine, by the words of the README', () => {
  const folder = newFolder();
  const starts = startsInReadme();
  const second = starts.find(({ DATA_DIR, PORT }) => DATA_DIR !== undefined && PORT !== undefined);
  const [a, b] = [new Install(folder, {}), new Install(folder, second ?? {})];
  let exchanged = '';

  beforeAll(async () => {
    await a.start('Anna');
    await b.start('Runa');
  });
  afterAll(async () => {
    await Promise.all([a.stop(), b.stop()]);
    for (const one of [folder, exchanged]) if (one !== '') discard(one);
  });

  it('have a command for the second one, with a folder and a port of its own', () => {
    expect(second?.['PORT']).toMatch(/^\d+$/);
    expect(second?.['PORT']).not.toBe(/\| `PORT` +\| (\d+)/.exec(read('README.md'))?.[1]);
    const usual = /\| `DATA_DIR` +\| `([^`]+)`/.exec(read('README.md'))?.[1] ?? '';
    for (const dir of [usual, second?.['DATA_DIR'] ?? ''])
      expect([dir, existsSync(join(folder, dir)) && dir !== '']).toEqual([dir, true]);
  });

  it('are paired, and a line shared by one comes into the other through a folder', async () => {
    const lineId = await newRecords(a).createLine({ code: 'ONE', name: 'Line of one' });
    await newRecords(a).createFish({ tag: 'ONE-1', sex: 'MALE', lineId });
    const { ofA, ofB, folder: shared } = await pairUp(a, b);
    exchanged = shared;
    await grant(a, ofB.person.id, lineId);
    await exchange(a, ofB.id);
    await exchange(b, ofA.id);
    await takeOffered(b, ofA.id, lineId);
    const { fishList } = await b.graphql<{ fishList: { edges: { node: { tag: string } }[] } }>(
      '{ fishList(first: 9) { edges { node { tag } } } }',
    );
    expect(fishList.edges.map(({ node }) => node.tag)).toEqual(['ONE-1']);
  });
});
