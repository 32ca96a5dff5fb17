import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';

interface Merit {
  settings: { revision: number };
  waiting: { id: string; state: string } | null;
  result: { linear: { heritability: { mean: number }; effects: unknown[] } | null } | null;
}
interface Worked {
  readonly merit: Merit;
  /** Value of each fish, by tag. */
  readonly values: ReadonlyMap<string, number>;
}

const MERIT = `query ($id: ID!) { traitMerit(traitId: $id) { settings { revision } waiting { id state }
  result { linear { heritability { mean } effects { column level value } } } } }`;
const RANKED = `query ($id: ID!) { rankedFish(traitId: $id, inUse: false, first: 100) {
  edges { node { value fish { tag } } } } }`;

/** What the trait is found to be once it is worked out, however long it is waited for. */
const workedOut = async (api: RunningApi, id: string): Promise<Worked> => {
  const end = performance.now() + 120_000;
  for (;;) {
    const { traitMerit: merit } = await api.graphql<{ traitMerit: Merit }>(MERIT, { id });
    if (merit.waiting === null) {
      const { rankedFish } = await api.graphql<{
        rankedFish: { edges: { node: { value: number; fish: { tag: string } } }[] };
      }>(RANKED, { id });
      const values = rankedFish.edges.map(({ node }) => [node.fish.tag, node.value] as const);
      return { merit, values: new Map(values) };
    }
    if (performance.now() > end) throw new Error(`Waited in vain: ${merit.waiting.state}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
};

const joined = async (first: RunningApi, longFromFish: string): Promise<RunningApi> => {
  const api = await startApi({
    signedIn: false,
    environment: { DATABASE_URL: first.served.databaseUrl, LONG_FROM_FISH: longFromFish },
  });
  await api.graphql('mutation ($password: String!) { signIn(password: $password) { signedIn } }', {
    password: PASSWORD,
  });
  return api;
};

const AT_ONCE = '100000';
const ALWAYS_LONG = '1';

/** Two sires over one dam, eight scored young each of both sexes, looked at on three days. */
class Stock {
  readonly ids = new Map<string, string>();
  readonly scores = new Map<string, string>();
  traitId = '';

  constructor(private readonly api: RunningApi) {}

  id = (tag: string): string => this.ids.get(tag)!;

  async fill(): Promise<void> {
    const make = newRecords(this.api);
    this.traitId = await make.createTrait({ key: 'spread', name: 'Spread', kind: 'MEASURED' });
    for (const tag of ['RED', 'BLUE', 'PALE', 'GREY'])
      this.ids.set(
        tag,
        await make.createFish({ tag, sex: tag === 'RED' || tag === 'BLUE' ? 'MALE' : 'FEMALE' }),
      );
    for (const [brood, sire] of [
      ['A', 'RED'],
      ['B', 'BLUE'],
    ] as const) {
      const tags = Array.from({ length: 8 }, (_, k) => `${brood}-${k + 1}`);
      const spawn = await make.createSpawn({
        ...{ tag: brood, sireId: this.id(sire), damId: this.id('PALE') },
        hatchDate: daysAgo(200),
      });
      this.ids.set(brood, spawn);
      await make.addFishToSpawn({ spawnId: spawn, number: 8, tags });
    }
    const { fishList } = await this.api.graphql<{
      fishList: { edges: { node: { id: string; tag: string } }[] };
    }>('{ fishList(first: 100) { edges { node { id tag } } } }');
    for (const { node } of fishList.edges) this.ids.set(node.tag, node.id);
    for (const brood of ['A', 'B'])
      for (let k = 0; k < 8; k++) {
        const tag = `${brood}-${k + 1}`;
        await this.correct('fish', tag, { sex: k % 2 === 0 ? 'MALE' : 'FEMALE' });
        await this.score(tag, 160 + (brood === 'A' ? 6 : 0) + ((k * 7) % 5), 10 + 7 * (k % 3));
      }
  }

  async score(tag: string, value: number, ago: number): Promise<void> {
    const [scoreId] = await newRecords(this.api).recordScores({
      ...{ fishId: this.id(tag), scoredOn: daysAgo(ago) },
      entries: [{ traitId: this.traitId, value }],
    });
    this.scores.set(tag, scoreId!);
  }

  async correct(what: 'fish' | 'spawn', tag: string, fields: object): Promise<void> {
    const name = what === 'fish' ? 'Fish' : 'Spawn';
    const id = this.id(tag);
    const { one } = await this.api.graphql<{ one: { revision: number } }>(
      `query ($id: ID!) { one: ${what}(id: $id) { revision } }`,
      { id },
    );
    await this.api.graphql(
      `mutation ($input: Correct${name}Input!) { correct${name}(input: $input) { id } }`,
      { input: { id, revision: one.revision, ...fields } },
    );
  }

  async change(mutation: string, type: string, input: object): Promise<void> {
    const selection = mutation.endsWith('TraitModel') ? 'settings { revision }' : 'id';
    await this.api.graphql(
      `mutation ($input: ${type}!) { ${mutation}(input: $input) { ${selection} } }`,
      { input },
    );
  }
}

/** Each in its turn on the same records. */
const CHANGES: readonly (readonly [what: string, change: (stock: Stock) => Promise<void>])[] = [
  ['a score more', (stock) => stock.score('RED', 171, 10)],
  [
    'a corrected score',
    (stock) =>
      stock.change('correctScore', 'CorrectScoreInput', {
        ...{ scoreId: stock.scores.get('A-1'), value: 150, reason: 'Read wrongly.' },
      }),
  ],
  [
    'a withdrawn score',
    (stock) =>
      stock.change('withdrawScore', 'WithdrawInput', {
        ...{ id: stock.scores.get('B-2'), reason: 'Another fish.', revision: 1 },
      }),
  ],
  ['a sex', (stock) => stock.correct('fish', 'A-2', { sex: 'MALE' })],
  ['another dam of a brood', (stock) => stock.correct('spawn', 'B', { damId: stock.id('GREY') })],
  ['a day of hatching', (stock) => stock.correct('fish', 'A-3', { hatchDate: daysAgo(150) })],
  ['a brood', (stock) => stock.correct('fish', 'B-8', { spawnId: stock.id('A') })],
  [
    'a setting',
    (stock) =>
      stock.change('setTraitModel', 'SetTraitModelInput', {
        ...{ traitId: stock.traitId, revision: 0, prior: 'FLAT' },
      }),
  ],
];

describe.each([
  ['within a request', AT_ONCE],
  ['as a long computation', ALWAYS_LONG],
])('breeding values worked out %s', (_, longFromFish) => {
  let api: RunningApi;
  let other: RunningApi;
  let stock: Stock;
  beforeAll(async () => {
    api = await startApi({ environment: { LONG_FROM_FISH: longFromFish } });
    stock = new Stock(api);
    await stock.fill();
    other = await joined(api, longFromFish);
  });
  afterAll(async () => {
    await other.close();
    await api.close();
  });

  it.each(CHANGES)('are new after %s', async (_what, change) => {
    const before = await workedOut(api, stock.traitId);
    await change(stock);
    const after = await workedOut(api, stock.traitId);
    expect(after).not.toEqual(before);
    expect(after.values).not.toEqual(before.values);
  });

  it('are then what a process says that has seen nothing of what was before', async () => {
    const after = await workedOut(api, stock.traitId);
    await (await recordsOf(api)).query('DELETE FROM computation');
    const fresh = await joined(api, AT_ONCE);
    expect(await workedOut(fresh, stock.traitId)).toEqual(after);
    await fresh.close();
  });

  it('are not worked out again for a note, which no figure rests on', async () => {
    const db = await recordsOf(api);
    const before = await workedOut(api, stock.traitId);
    await stock.correct('fish', 'A-5', { note: 'Eats well.' });
    const { traitMerit } = await api.graphql<{ traitMerit: Merit }>(MERIT, { id: stock.traitId });
    expect(traitMerit).toEqual(before.merit);
    const [{ count }] = (await db.query(
      `SELECT count(*)::int FROM computation WHERE subject = $1`,
      [stock.traitId],
    )) as [{ count: number }];
    expect(count).toBe(1);
  });

  it('are served by another process from what is stored, and not made again', async () => {
    const db = await recordsOf(api);
    await workedOut(api, stock.traitId);
    // Marked, so that it can be told from one that is worked out anew.
    await db.query(
      `UPDATE computation SET result = jsonb_set(result, '{linear,heritability,mean}', '0.125')
       WHERE subject = $1 AND state = 'done'`,
      [stock.traitId],
    );
    const { merit } = await workedOut(other, stock.traitId);
    expect(merit.result?.linear?.heritability.mean).toBe(0.125);
  });

  it('stand in the list of long computations only when they were one', async () => {
    await stock.score('A-4', 169, 3);
    await workedOut(api, stock.traitId);
    const { computations } = await api.graphql<{
      computations: { edges: { node: { subject: string } }[] };
    }>('{ computations(first: 50) { edges { node { subject } } } }');
    const listed = computations.edges.filter(({ node }) => node.subject === stock.traitId);
    expect(listed).toHaveLength(longFromFish === ALWAYS_LONG ? 1 : 0);
  });
});
