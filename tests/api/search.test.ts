import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
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
