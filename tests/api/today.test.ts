import { dayIn } from '@linewright/care';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type GraphqlAnswer, type RunningApi, startApi } from './harness.js';
import { creation } from '../new-records.js';

/** 22:30 on 31 December in Los Angeles, 06:30 on 1 January in UTC, 19:30 in Auckland. */
const NEW_YEAR = '2027-01-01T06:30:00Z';

describe('today is a day where the person is', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ at: NEW_YEAR });
  });
  afterAll(() => api.close());

  const from = async (
    zone: string,
    query: string,
    variables: object,
  ): Promise<GraphqlAnswer<Record<string, never>>> => {
    const response = await api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'linewright-zone': zone },
      body: JSON.stringify({ query, variables }),
    });
    return (await response.json()) as GraphqlAnswer<Record<string, never>>;
  };
  const spawn = (zone: string, tag: string, spawnedOn: string) =>
    from(zone, creation('createSpawn'), {
      input: { tag, spawnedOn },
    });

  it('takes the last day of the year there, and refuses the next one until it has come', async () => {
    expect((await spawn('America/Los_Angeles', 'LA-1', '2026-12-31')).errors).toBeUndefined();
    const refused = await spawn('America/Los_Angeles', 'LA-2', '2027-01-01');
    expect(refused.errors?.[0]?.extensions.code).toBe('VALIDATION');
    expect(refused.errors?.[0]?.message).toMatch(/2027-01-01 is in the future/);
  });

  it('takes the first day of the year where it has begun, and no later one', async () => {
    expect((await spawn('Pacific/Auckland', 'NZ-1', '2027-01-01')).errors).toBeUndefined();
    expect((await spawn('Asia/Bangkok', 'TH-1', '2027-01-01')).errors).toBeUndefined();
    expect((await spawn('Pacific/Auckland', 'NZ-2', '2027-01-02')).errors).toHaveLength(1);
  });

  it('falls back to the zone of the server for a name that is no zone', async () => {
    const here = dayIn(Date.parse(NEW_YEAR), Intl.DateTimeFormat().resolvedOptions().timeZone);
    expect((await spawn('Middle/Earth', 'ME-1', here)).errors).toBeUndefined();
    expect((await spawn('Middle/Earth', 'ME-2', '2027-01-03')).errors).toHaveLength(1);
  });

  it('dates a file without days of scoring on the day where it was sent from', async () => {
    const csv = 'tag,length\nIMP-1,4\n';
    const imported = await from(
      'America/Los_Angeles',
      `mutation ($text: String!, $columns: [ImportColumnInput!]!) {
        confirmImport(fileName: "scores.csv", text: $text, columns: $columns) { scores } }`,
      { text: csv, columns: [{ header: 'length', role: 'TRAIT', traitName: 'Length' }] },
    );
    expect(imported.errors).toBeUndefined();
    const { fishList } = await api.graphql<{
      fishList: { edges: { node: { tag: string; latestScores: { scoredOn: string }[] } }[] };
    }>('{ fishList(first: 10) { edges { node { tag latestScores { scoredOn } } } } }');
    const scores = fishList.edges.find(({ node }) => node.tag === 'IMP-1')?.node.latestScores;
    expect(scores?.map((score) => score.scoredOn)).toEqual(['2026-12-31']);
  });
});

describe.each([
  // Soon after midnight, where UTC still has the day before, and late in the evening, where it has the next one.
  ['Pacific/Auckland', '2027-02-28T11:10:00Z', '2027-03-01'],
  ['America/Los_Angeles', '2027-03-14T06:40:00Z', '2027-03-13'],
])('the demo opened in %s at %s', (zone, at, day) => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ demo: true, at, zone });
  });
  afterAll(() => api.close());

  it('has nothing in it that is in the future', async () => {
    const { spawnList, waterPlaces } = await api.graphql<{
      spawnList: {
        edges: {
          node: {
            hatchDate: string | null;
            events: { at: string }[];
            counts: { countedOn: string }[];
          };
        }[];
      };
      waterPlaces: { latest: { takenAt: string } }[];
    }>(`{
      spawnList(first: 100, sort: { field: SPAWNED_ON, direction: DESC }) {
        edges { node { hatchDate events { at } counts { countedOn } } }
      }
      waterPlaces { latest { takenAt } }
    }`);
    const spawns = spawnList.edges.map(({ node }) => node);
    const times = [
      ...spawns.flatMap((spawn) => spawn.events.map((event) => event.at)),
      ...waterPlaces.map(({ latest }) => latest.takenAt),
    ].map((time) => Date.parse(time));
    expect(times.length).toBeGreaterThan(100);
    expect(Math.max(...times)).toBeLessThanOrEqual(Date.parse(at));
    const days = spawns.flatMap((spawn) => [
      ...(spawn.hatchDate === null ? [] : [spawn.hatchDate]),
      ...spawn.counts.map((count) => count.countedOn),
    ]);
    expect([...days].sort().at(-1)! <= day).toBe(true);
  });

  it('has a spawn of yesterday, by the day there', async () => {
    const { spawnList } = await api.graphql<{
      spawnList: { edges: { node: { events: { kind: string; at: string }[] } }[] };
    }>(`{ spawnList(first: 5, sort: { field: SPAWNED_ON, direction: DESC }) {
      edges { node { events { kind at } } } } }`);
    const spawned = spawnList.edges
      .flatMap(({ node }) => node.events)
      .filter(({ kind }) => kind === 'SPAWNED')
      .map((event) => dayIn(Date.parse(event.at), zone));
    const yesterday = dayIn(Date.parse(`${day}T12:00:00Z`) - 86_400_000, 'UTC');
    expect(spawned).toContain(yesterday);
  });
});
