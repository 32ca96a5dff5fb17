import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordsOn, type Records } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';

const WHO = `query ($locusId: String!, $alleleId: String, $lineId: ID, $least: Float, $first: Int!, $after: String) {
  whoCarries(locusId: $locusId, alleleId: $alleleId, lineId: $lineId, least: $least) {
    locusName alleleId inUse sure possible unlikely notKnown recordCount whyNone
    carriers(first: $first, after: $after) { totalCount pageInfo { hasNextPage endCursor }
      edges { node { fish { id tag } probability twice only } } } } }`;

interface Found {
  locusName: string;
  alleleId: string;
  inUse: number;
  sure: number;
  possible: number;
  unlikely: number;
  notKnown: number;
  recordCount: number;
  whyNone: string | null;
  carriers: {
    totalCount: number;
    pageInfo: { hasNextPage: boolean; endCursor: string | null };
    edges: {
      node: {
        fish: { id: string; tag: string };
        probability: number;
        twice: number;
        only: number | null;
      };
    }[];
  };
}

const asker =
  (api: RunningApi) =>
  async (asked: object): Promise<Found> =>
    (await api.graphql<{ whoCarries: Found }>(WHO, { first: 200, ...asked })).whoCarries;

describe('who carries an allele', () => {
  let api: RunningApi;
  let records: Records;
  const ids: Record<string, string> = {};

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    const lineId = await records.line('T');
    const here = { lineId, disposition: 'KEEPER' };
    ids['T'] = lineId;
    ids['double'] = await records.fish('T-1', 'MALE', here);
    ids['dam'] = await records.fish('T-2', 'FEMALE', here);
    ids['dead'] = await records.fish('T-3', 'MALE', { lineId, disposition: 'DIED' });
    ids['alone'] = await records.fish('X-1', 'MALE', { disposition: 'KEEPER' });
    await records.setting({ locusId: 'dt', misScoring: 0 });
    await records.seen(ids['double'], 'dt', 'double');
    await records.seen(ids['dead'], 'dt', 'double');
    await records.seen(ids['dam'], 'dt', 'single');
    const spawn = await records.spawn('T26-01', ids['dead'], ids['dam'], { lineId });
    await records.counted(spawn, 'dt', { single: 3 });
  });
  afterAll(() => api.close());

  const chance = async (id: string): Promise<number> => {
    const chances = await records.chances(id, 'dt');
    return (chances['Dt/dt'] ?? 0) + (chances['dt/dt'] ?? 0);
  };

  it('lists fish in use, the surest first, with the chances that their own pages tell', async () => {
    const who = await asker(api)({ locusId: 'dt', least: 0 });
    expect(who).toMatchObject({ alleleId: 'double', inUse: 3, sure: 1, possible: 2, notKnown: 1 });
    const rows = who.carriers.edges.map(({ node }) => node);
    expect(rows[0]).toMatchObject({ fish: { tag: 'T-1' }, probability: 1, twice: 1 });
    expect(rows.map(({ fish }) => fish.tag).toSorted()).toEqual(['T-1', 'T-2']);
    for (const { fish, probability } of rows)
      expect(probability).toBeCloseTo(await chance(fish.id), 8);
  });

  it('tells how likely a fish is the last of its line that carries it', async () => {
    const who = await asker(api)({ locusId: 'dt', least: 0 });
    const only = new Map(who.carriers.edges.map(({ node }) => [node.fish.tag, node.only]));
    // All other fish of the line in use would have to be without it.
    expect(only.get('T-1')).toBeCloseTo(1 - (await chance(ids['dam']!)), 8);
    expect(only.get('T-2')).toBeCloseTo(0, 8);
  });

  it('counts what is hardly likely, and lists it when asked', async () => {
    const dam = await chance(ids['dam']!);
    const who = await asker(api)({ locusId: 'dt', least: dam + 1e-6, lineId: ids['T'] });
    expect(who).toMatchObject({ inUse: 2, possible: 2, unlikely: 1 });
    expect(who.carriers.edges.map(({ node }) => node.fish.tag)).toEqual(['T-1']);
  });

  it('goes on page by page', async () => {
    const first = await asker(api)({ locusId: 'dt', least: 0, first: 1 });
    expect(first.carriers.pageInfo.hasNextPage).toBe(true);
    const after = first.carriers.pageInfo.endCursor;
    const next = await asker(api)({ locusId: 'dt', least: 0, first: 1, after });
    const tags = [...first.carriers.edges, ...next.carriers.edges].map(({ node }) => node.fish.tag);
    expect(new Set(tags).size).toBe(2);
    expect(next.carriers.pageInfo.hasNextPage).toBe(false);
  });

  it('asks for the other allele as well', async () => {
    const who = await asker(api)({ locusId: 'dt', alleleId: 'single', least: 0 });
    expect(who.carriers.edges.map(({ node }) => node.fish.tag)).not.toContain('T-1');
    expect(who).toMatchObject({ sure: 1, possible: 1 });
  });

  it('says why nothing is known', async () => {
    const who = await asker(api)({ locusId: 'mt' });
    expect(who.whyNone).toMatch(/^Nothing is recorded of .+ yet: record what fish show/);
    expect(who.carriers.totalCount).toBe(0);
  });

  it.each([
    [{ locusId: 'nowhere' }, 'nowhere'],
    [{ locusId: 'dt', alleleId: 'nothing' }, 'nothing'],
    [{ locusId: 'dt', least: 2 }, '"2": give a chance from 0 to 1'],
  ])('refuses %j and names it', async (asked, named) => {
    const { errors } = await api.send(WHO, { first: 10, ...asked });
    expect(errors?.[0]?.message).toContain(named);
  });

  it('says which records contradict each other instead of a list', async () => {
    // Two double tails cannot have a single-tailed young.
    const dam = await records.fish('T-4', 'FEMALE', { lineId: ids['T'], disposition: 'DIED' });
    await records.seen(dam, 'dt', 'double');
    const brood = await records.spawn('T26-02', ids['double']!, dam);
    await records.counted(brood, 'dt', { single: 5 });
    const who = await asker(api)({ locusId: 'dt' });
    expect(who.whyNone).toMatch(/cannot all be true/);
  });
});
