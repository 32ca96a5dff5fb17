import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DataSource } from 'typeorm';
import { actAs } from '../../apps/api/src/access/acting.js';
import { newRecords } from '../new-records.js';
import { askedIn, joined } from './joined.js';
import { type RunningApi, startApi } from './harness.js';
import { listenToStatements } from './sent-statements.js';

const SEARCH = `query ($text: String!) { search(text: $text) {
  kind hasMore found { id title beside words } } }`;

interface Group {
  readonly kind: string;
  readonly hasMore: boolean;
  readonly found: readonly {
    readonly id: string;
    readonly title: string;
    readonly beside: string | null;
    readonly words: string | null;
  }[];
}

let api: RunningApi;
const search = async (text: string): Promise<readonly Group[]> =>
  (await api.graphql<{ search: Group[] }>(SEARCH, { text })).search;
/** Titles by kind. */
const titles = async (text: string): Promise<Record<string, string[]>> =>
  Object.fromEntries(
    (await search(text)).map(({ kind, found }) => [kind, found.map(({ title }) => title)]),
  );

beforeAll(async () => {
  api = await startApi();
  const made = newRecords(api);
  const lineId = await made.createLine({ code: 'W', name: 'Weir', goal: 'wide tails' });
  await made.createFish({ tag: 'W26-02', sex: 'FEMALE', lineId, name: 'Heron' });
  await made.createFish({ tag: 'X-W26', sex: 'MALE', note: 'bites when it is fed, 100% of days' });
  const gone = await made.createFish({ tag: 'W26-09', sex: 'MALE' });
  await api.graphql('mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }', {
    input: { id: gone, reason: 'a slip' },
  });
  await made.createSpawn({ tag: 'W26-01', lineId, purpose: 'wide tails first' });
  await api.graphql('mutation ($input: RecordWaterInput!) { recordWater(input: $input) { id } }', {
    input: { vessel: 'Rack 2, heron jar', takenAt: '2026-01-01T08:00:00Z', figures: { pH: 7 } },
  });
});
afterAll(() => api.close());

describe('a search over all records', () => {
  it('finds tags that begin with the text first, in any capitals, and none that are withdrawn', async () => {
    expect(await titles('w26')).toEqual({ FISH: ['W26-02', 'X-W26'], SPAWN: ['W26-01'] });
  });

  it('finds names, places and lines, each under its kind', async () => {
    expect(await titles('heron')).toEqual({ FISH: ['W26-02'], PLACE: ['Rack 2, heron jar'] });
    expect(await titles('weir')).toEqual({ LINE: ['W · Weir'] });
  });

  it('shows the words around those in a note', async () => {
    const [fish] = await search('bites');
    expect(fish?.found[0]).toMatchObject({
      title: 'X-W26',
      beside: 'male',
      words: 'bites when it is fed, 100% of days',
    });
    expect(Object.keys(await titles('wide  tails'))).toEqual(['LINE', 'SPAWN']);
  });

  it('takes signs of a pattern as they are', async () => {
    expect(await titles('100%')).toEqual({ FISH: ['X-W26'] });
    expect(await titles('%')).toEqual({ FISH: ['X-W26'] });
    expect(await titles('W__-0')).toEqual({});
    expect(await search('   ')).toEqual([]);
  });

  it('shows ten of a kind, and says that there are more, in a few statements', async () => {
    const made = newRecords(api);
    const spawnId = await made.createSpawn({ tag: 'many' });
    await made.addFishToSpawn({ spawnId, number: 30, sex: 'UNSEXED' });
    const [fish] = await search('many');
    expect(fish).toMatchObject({ kind: 'FISH', hasMore: true });
    expect(fish?.found).toHaveLength(10);
    const statements = await listenToStatements(api);
    const sent = await statements.of('{ search(text: "any") { found { id } } }');
    statements.stop();
    expect(sent.filter((text) => /\b(fish|spawn)\b/.test(text)).length).toBeLessThanOrEqual(3);
  });
});

describe('saved searches', () => {
  const SAVE =
    'mutation ($input: SaveSearchInput!) { saveSearch(input: $input) { id name filter } }';
  const LIST = '{ savedSearches { id name filter } }';
  interface Saved {
    id: string;
    name: string;
    filter: string;
  }
  const ownerOf = async (): Promise<{ id: string }> =>
    (await api.graphql<{ session: { person: { id: string } } }>('{ session { person { id } } }'))
      .session.person;
  const save = (name: string, filter: string) =>
    api.send<{ saveSearch: Saved[] }>(SAVE, { input: { name, filter } });

  it('are kept by name, replaced under the same one, and removed', async () => {
    await save('young males', 'sex=MALE&younger=20');
    await save('  a look ', 'look=dt:double&use=all');
    const { data } = await save('young males', 'sex=MALE&younger=12');
    expect(data?.saveSearch.map(({ name, filter }) => [name, filter])).toEqual([
      ['a look', 'look=dt:double&use=all'],
      ['young males', 'sex=MALE&younger=12'],
    ]);
    const { removeSavedSearch } = await api.graphql<{ removeSavedSearch: Saved[] }>(
      'mutation ($id: ID!) { removeSavedSearch(id: $id) { name } }',
      { id: data?.saveSearch[0]?.id },
    );
    expect(removeSavedSearch).toEqual([{ name: 'young males' }]);
  });

  it('are filters under a name, and nothing that leads elsewhere', async () => {
    for (const [name, filter] of [
      [' ', 'sex=MALE'],
      ['elsewhere', 'https://evil.example'],
      ['elsewhere', '/../people'],
      ['elsewhere', 'sex=MALE#x'],
      ['nothing', ''],
    ])
      expect((await save(name!, filter!)).errors?.[0]?.extensions.code).toBe('VALIDATION');
  });

  it('are each person’s own, in the household too, and by the database’s own rule', async () => {
    const partner = await joined(api, 'Other house', 'HOUSEHOLD');
    const { savedSearches } = await askedIn<{ savedSearches: Saved[] }>(partner, LIST);
    expect(savedSearches).toEqual([]);
    await askedIn(partner, SAVE, { input: { name: 'theirs', filter: 'sex=FEMALE' } });
    const own = await api.graphql<{ savedSearches: Saved[] }>(LIST);
    expect(own.savedSearches.map(({ name }) => name)).toEqual(['young males']);
    const [theirs] = (await askedIn<{ savedSearches: Saved[] }>(partner, LIST)).savedSearches;
    const taken = await api.send('mutation ($id: ID!) { removeSavedSearch(id: $id) { id } }', {
      id: theirs?.id,
    });
    expect(taken.errors?.[0]?.extensions.code).toBe('NOT_FOUND');
    const owner = { kind: 'account', role: 'owner', name: '', ...(await ownerOf()) } as const;
    const dataSource = api.served.app.get(DataSource, { strict: false });
    const rows = await actAs(owner as never, () =>
      dataSource.query('SELECT name FROM saved_search'),
    );
    expect(rows).toEqual([{ name: 'young males' }]);
  });
});
