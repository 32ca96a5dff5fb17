import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD } from '../api/harness.js';
import { exchange, grant, pairUp, type Partner, takeOffered } from '../api/paired-installs.js';
import { newRecords } from '../new-records.js';
import { AskingInstall } from './asking-install.js';
import { discard, newFolder } from './processes.js';
import { killNow, type SecondProcess, signIn, startSecond } from './second-process.js';

const ROUNDS = 10;
const CSV =
  'tag,sire,dam,sex,hatch_date,line\nS,,,male,2024-01-01,R\nD,,,female,2024-01-01,R\nA,S,D,male,2024-06-01,R\nB,S,D,female,2024-06-01,R\n';

interface Fish {
  readonly id: string;
  readonly tag: string;
  readonly name: string | null;
  readonly note: string | null;
  readonly revision: number;
}

/** An install of its own: the built server on an embedded database, started again in the same folder after each end. */
class Install extends AskingInstall {
  private running: SecondProcess | null = null;

  constructor(readonly dataDir: string) {
    super();
  }

  get url(): string {
    return this.running!.url;
  }

  async start(): Promise<void> {
    this.running = await startSecond('', { DATA_DIR: this.dataDir });
    if (this.cookie !== '') this.cookie = await signIn(this.url);
  }

  async setUp(personName: string): Promise<void> {
    await this.start();
    await this.graphql('mutation ($input: SetUpInput!) { setUp(input: $input) { signedIn } }', {
      input: { personName, password: PASSWORD },
    });
    this.cookie = await signIn(this.url);
  }

  async kill(): Promise<void> {
    if (this.running !== null) await killNow(this.running.child);
    this.running = null;
  }

  async fish(): Promise<Map<string, Fish>> {
    const { fishList } = await this.graphql<{ fishList: { edges: { node: Fish }[] } }>(
      '{ fishList(first: 100) { edges { node { id tag name note revision } } } }',
    );
    return new Map(fishList.edges.map(({ node }) => [node.tag, node]));
  }

  async correct(tag: string, fields: object): Promise<void> {
    const { id, revision } = (await this.fish()).get(tag)!;
    await this.graphql(
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
      {
        input: { id, revision, ...fields },
      },
    );
  }

  async add(tag: string, lineId: string): Promise<void> {
    await newRecords(this).createFish({ tag, sex: 'MALE', lineId, disposition: 'KEEPER' });
  }

  async waiting(): Promise<number> {
    const { differences } = await this.graphql<{ differences: { totalCount: number } }>(
      '{ differences(first: 1) { totalCount } }',
    );
    return differences.totalCount;
  }
}

describe('two installs on two embedded databases and one folder', () => {
  const [a, b] = [new Install(newFolder()), new Install(newFolder())];
  let line = '';
  let ofA: Partner;
  let ofB: Partner;
  let folder = '';

  beforeAll(async () => {
    await a.setUp('Anna');
    await b.setUp('Runa');
    await a.graphql(
      'mutation ($text: String!) { confirmImport(fileName: "f.csv", text: $text, columns: []) { fish } }',
      { text: CSV },
    );
    const { lines } = await a.graphql<{ lines: { id: string }[] }>('{ lines { id } }');
    line = lines[0]!.id;
    ({ ofA, ofB, folder } = await pairUp(a, b));
    await grant(a, ofB.person.id, line);
    await exchange(a, ofB.id);
    await exchange(b, ofA.id);
    await takeOffered(b, ofA.id, line);
  });
  afterAll(async () => {
    await Promise.all([a.kill(), b.kill()]);
    for (const dir of [a.dataDir, b.dataDir, folder]) discard(dir);
  });

  it('keep every change of ten rounds in which both work apart and are killed in the middle of an exchange', async () => {
    for (let round = 1; round <= ROUNDS; round += 1) {
      await a.correct('A', { note: `Anna, round ${round}` });
      await a.add(`A-${round}`, line);
      await b.correct('A', { name: `Runa ${round}` });
      await b.correct('B', { note: `Runa, round ${round}` });
      await b.add(`B-${round}`, line);
      for (const [install, of] of [
        [a, ofB],
        [b, ofA],
      ] as const) {
        // Ended while it reads or writes, a little later each round.
        const under = exchange(install, of.id).catch(() => null);
        await new Promise((resolve) => setTimeout(resolve, 40 * round));
        await install.kill();
        await under;
        await install.start();
      }
    }
    for (let turn = 0; turn < 2; turn += 1) {
      await exchange(a, ofB.id);
      await exchange(b, ofA.id);
    }
    const [here, there] = [await a.fish(), await b.fish()];
    expect(here.size).toBe(4 + 2 * ROUNDS);
    const told = (fish: Map<string, Fish>): unknown[] =>
      [...fish.values()]
        .map(({ id, tag, name, note }) => [tag, id, name, note])
        .sort((x, y) => (String(x[0]) < String(y[0]) ? -1 : 1));
    expect(told(there)).toEqual(told(here));
    expect(here.get('A')).toMatchObject({
      note: `Anna, round ${ROUNDS}`,
      name: `Runa ${ROUNDS}`,
    });
    expect(here.get('B')).toMatchObject({ note: `Runa, round ${ROUNDS}` });
    expect([await a.waiting(), await b.waiting()]).toEqual([0, 0]);
  });
});
