import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { PASSWORD, type RunningApi, startApi } from './harness.js';

export interface Merit {
  settings: { revision: number };
  waiting: { id: string; state: string } | null;
  result: { linear: { heritability: { mean: number }; effects: unknown[] } | null } | null;
}
export interface Worked {
  readonly merit: Merit;
  /** Value of each fish, by tag. */
  readonly values: ReadonlyMap<string, number>;
}

export const MERIT = `query ($id: ID!) { traitMerit(traitId: $id) { settings { revision } waiting { id state }
  result { linear { heritability { mean } effects { column level value } } } } }`;
export const RANKED = `query ($id: ID!) { rankedFish(traitId: $id, inUse: false, first: 100) {
  edges { node { value fish { tag } } } } }`;

/** What the trait is found to be once it is worked out, however long it is waited for. */
export const workedOut = async (api: RunningApi, id: string): Promise<Worked> => {
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

export const joined = async (first: RunningApi, longFromFish: string): Promise<RunningApi> => {
  const api = await startApi({
    signedIn: false,
    environment: { DATABASE_URL: first.served.databaseUrl, LONG_FROM_FISH: longFromFish },
  });
  await api.graphql('mutation ($password: String!) { signIn(password: $password) { signedIn } }', {
    password: PASSWORD,
  });
  return api;
};

export const AT_ONCE = '100000';
export const ALWAYS_LONG = '1';

/** Two sires over one dam, eight scored young each of both sexes, looked at on three days. */
export class ScoredStock {
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
      scores: [{ traitId: this.traitId, value }],
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
