import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';

interface Vessel {
  id: string;
  code: string;
  revision: number;
  stays: { fish: { tag: string } | null; spawn: { tag: string } | null; company: string | null }[];
}

const VESSEL = 'id code revision stays { company fish { tag } spawn { tag } }';
let api: RunningApi;

beforeAll(async () => {
  api = await startApi();
});
afterAll(() => api.close());

const make = async (code: string, more: object = {}): Promise<Vessel> => {
  const { createVessels } = await api.graphql<{ createVessels: Vessel[] }>(
    `mutation ($input: [CreateVesselInput!]!) { createVessels(input: $input) { ${VESSEL} } }`,
    { input: [{ code, kind: 'JAR', ...more }] },
  );
  return createVessels[0]!;
};
const move = async (input: object): Promise<Vessel[]> =>
  (
    await api.graphql<{ moveToVessel: Vessel[] }>(
      `mutation ($input: MoveToVesselInput!) { moveToVessel(input: $input) { ${VESSEL} } }`,
      { input },
    )
  ).moveToVessel;
const fish = (tag: string, sex = 'MALE') => newRecords(api).createFish({ tag, sex } as never);
const whoIsIn = async (id: string): Promise<string[]> => {
  const { vessel } = await api.graphql<{ vessel: Vessel }>(
    `query ($id: ID!) { vessel(id: $id) { ${VESSEL} } }`,
    { id },
  );
  return vessel.stays.map((stay) => stay.fish?.tag ?? stay.spawn?.tag ?? '');
};
const scan = async (text: string) =>
  (
    await api.graphql<{ scannedCode: unknown }>(
      `query ($text: String!) { scannedCode(text: $text) { vessel { code } fish { tag } ofAnotherHouse houseName unknownCode } }`,
      { text },
    )
  ).scannedCode;
const nothing = {
  ...{ vessel: null, fish: null, ofAnotherHouse: false, houseName: null, unknownCode: null },
};

describe('vessels', () => {
  it('are one where their codes differ in case and spaces alone', async () => {
    const jar = await make(' W  1 ');
    expect(jar.code).toBe('W 1');
    await expect(make('w1')).rejects.toThrow('TAG_TAKEN');
    expect(await scan('W1')).toEqual({ ...nothing, vessel: { code: 'W 1' } });
    const other = await make('W 2');
    await expect(
      api.graphql(
        'mutation ($input: CorrectVesselInput!) { correctVessel(input: $input) { id } }',
        { input: { id: other.id, revision: 1, code: 'w 1' } },
      ),
    ).rejects.toThrow('TAG_TAKEN');
  });

  it('are listed as they stand, those without a rack last', async () => {
    await make('X 10', { rack: 'X', shelf: 1, position: 10 });
    await make('X 2', { rack: 'X', shelf: 1, position: 2 });
    await make('X 11', { rack: 'x', shelf: 2, position: 1 });
    const { vessels } = await api.graphql<{ vessels: { edges: { node: Vessel }[] } }>(
      '{ vessels(first: 200) { edges { node { code } } } }',
    );
    const codes = vessels.edges.map(({ node }) => node.code);
    expect(codes.filter((code) => /^[WX]/.test(code))).toEqual([
      ...['X 2', 'X 10', 'X 11', 'W 1', 'W 2'],
    ]);
  });

  it('take the readings of water that name them, however they are spelt', async () => {
    const record = (vessel: string) =>
      api.graphql(
        'mutation ($input: RecordWaterInput!) { recordWater(input: $input) { vessel vesselId } }',
        { input: { vessel, takenAt: `${today()}T00:00:00Z`, figures: { pH: 7 } } },
      );
    const first = await record('Sump 7');
    expect(await record('sump7')).toEqual(first);
    const { waterPlaces, waterReadings } = await api.graphql<{
      waterPlaces: { name: string; readingCount: number }[];
      waterReadings: { edges: unknown[] };
    }>(
      '{ waterPlaces { name readingCount } waterReadings(vessel: "SUMP 7") { edges { cursor } } }',
    );
    expect(waterPlaces).toContainEqual({ name: 'Sump 7', readingCount: 2 });
    expect(waterReadings.edges).toHaveLength(2);
  });

  it('are withdrawn when they are empty, and their code is free again', async () => {
    const jar = await make('V 1');
    await move({ vesselId: jar.id, fishIds: [await fish('V-1')] });
    const end = () =>
      api.graphql('mutation ($input: WithdrawInput!) { withdrawVessel(input: $input) { id } }', {
        input: { id: jar.id, reason: 'broken' },
      });
    await expect(end()).rejects.toThrow('move them first');
    await move({ vesselId: null, fishIds: [await idOf('V-1')] });
    await end();
    expect((await make('V1')).id).not.toBe(jar.id);
    await expect(move({ vesselId: jar.id, fishIds: [await idOf('V-1')] })).rejects.toThrow(
      'not in use any more (broken)',
    );
  });
});

const idOf = async (tag: string): Promise<string> => {
  const { fishList } = await api.graphql<{ fishList: { edges: { node: { id: string } }[] } }>(
    'query ($tag: String!) { fishList(filter: { text: $tag }) { edges { node { id } } } }',
    { tag },
  );
  return fishList.edges[0]!.node.id;
};

describe('a move', () => {
  it('takes a fish from vessel to vessel, and where it was stays on record', async () => {
    const [one, two, id] = [await make('M 1'), await make('M 2'), await fish('M-1')];
    await move({ vesselId: one.id, fishIds: [id] });
    const changed = await move({ vesselId: two.id, fishIds: [id] });
    expect(changed.map(({ code, stays }) => [code, stays.length])).toEqual([
      ['M 2', 1],
      ['M 1', 0],
    ]);
    // Sent again after a lost answer it changes nothing.
    await move({ vesselId: two.id, fishIds: [id] });
    const { vesselStays, fishList } = await api.graphql<{
      vesselStays: { edges: { node: { leftAt: string | null; vessel: { code: string } } }[] };
      fishList: { edges: { node: { tag: string; stay: { vessel: { code: string } } } }[] };
    }>(
      `query ($id: ID!, $vessels: [ID!]) {
        vesselStays(fishId: $id) { edges { node { leftAt vessel { code } } } }
        fishList(filter: { vesselIds: $vessels }) { edges { node { tag stay { vessel { code } } } } } }`,
      { id, vessels: [one.id, two.id] },
    );
    expect(vesselStays.edges.map(({ node }) => [node.vessel.code, node.leftAt === null])).toEqual([
      ['M 2', true],
      ['M 1', false],
    ]);
    expect(fishList.edges.map(({ node }) => [node.tag, node.stay.vessel.code])).toEqual([
      ['M-1', 'M 2'],
    ]);
  });

  it('puts two into one vessel only where it is said as what they live together', async () => {
    const jar = await make('T 1');
    const [a, b] = [await fish('T-1', 'FEMALE'), await fish('T-2', 'FEMALE')];
    await move({ vesselId: jar.id, fishIds: [a] });
    const second = { vesselId: jar.id, fishIds: [b] };
    await expect(move(second)).rejects.toThrow('VESSEL_OCCUPIED');
    await expect(move(second)).rejects.toThrow(/T-1 is in T 1 already.*kill each other/);
    await expect(move({ ...second, company: 'PAIR' })).rejects.toThrow('one male and one female');
    expect(await whoIsIn(jar.id)).toEqual(['T-1']);
    await move({ ...second, company: 'SORORITY' });
    expect(await whoIsIn(jar.id)).toEqual(['T-1', 'T-2']);
    const male = await fish('T-3');
    await expect(move({ vesselId: jar.id, fishIds: [male], company: 'SORORITY' })).rejects.toThrow(
      'T-3 is a male',
    );
    const empty = await make('T 2');
    await expect(move({ vesselId: empty.id, fishIds: [a, b] })).rejects.toThrow('VESSEL_OCCUPIED');
  });

  it('is refused of fish that are dead, passed on or withdrawn; whoever dies in a vessel leaves it empty', async () => {
    const [jar, id] = [await make('D 1'), await fish('D-1')];
    await move({ vesselId: jar.id, fishIds: [id] });
    await api.graphql('mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }', {
      input: { id, disposition: 'DIED', on: today(), reason: 'old age' },
    });
    expect(await whoIsIn(jar.id)).toEqual([]);
    await expect(move({ vesselId: jar.id, fishIds: [id] })).rejects.toThrow(
      'D-1 is recorded as dead',
    );
    const sold = await fish('D-2');
    await api.graphql('mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }', {
      input: { id: sold, disposition: 'PLACED', on: today(), reason: 'sold' },
    });
    await expect(move({ vesselId: jar.id, fishIds: [sold] })).rejects.toThrow('swims elsewhere');
    expect(await whoIsIn(jar.id)).toEqual([]);
    // The jar of a dead fish takes the next one without a question.
    await move({ vesselId: jar.id, fishIds: [await fish('D-3')] });
  });
});

describe('a file with a column of jars', () => {
  it('puts its fish into the vessels of the house, and makes those that are not there', async () => {
    const jar = await make('F 1');
    await api.graphql(
      `mutation ($text: String!) { confirmImport(fileName: "jars.csv", columns: [], text: $text) { fish } }`,
      { text: 'tag,sex,jar,status\nF-1,male,f1,keeper\nF-2,male,Tub F,keeper\n' },
    );
    expect(await whoIsIn(jar.id)).toEqual(['F-1']);
    expect(await scan('tubf')).toMatchObject({ vessel: { code: 'Tub F' } });
  });
});

describe('a label', () => {
  it('is read as a vessel or a fish of this house, as one of another house, or as a code that is free', async () => {
    const [jar, id] = [await make('L 1'), await fish('L-1')];
    expect(await scan(`http://any:4700/vessels/${jar.id}?house=${randomUUID()}`)).toEqual({
      ...nothing,
      vessel: { code: 'L 1' },
    });
    expect(await scan(`https://any/fish/${id}`)).toEqual({ ...nothing, fish: { tag: 'L-1' } });
    const records = await recordsOf(api);
    const [other] = (await records.query(
      `INSERT INTO person (id, name) VALUES (gen_random_uuid(), 'Solveig') RETURNING id`,
    )) as { id: string }[];
    const foreign = `https://any/vessels/${randomUUID()}`;
    expect(await scan(`${foreign}?house=${other!.id}`)).toEqual({
      ...{ ...nothing, ofAnotherHouse: true, houseName: 'Solveig' },
    });
    expect(await scan(foreign)).toEqual({ ...nothing, ofAnotherHouse: true });
    expect(await scan(' L  99 ')).toEqual({ ...nothing, unknownCode: 'L 99' });
  });
});
