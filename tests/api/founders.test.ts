import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';

const NEXT = `query ($kind: TaggedKind!, $lineId: ID, $number: Int!) {
  nextTags(kind: $kind, lineId: $lineId, number: $number) }`;
const FOUNDERS = `mutation ($input: RecordFoundersInput!) { recordFounders(input: $input) {
  id tag sex origin declaredUnrelated disposition line { id } spawn { id tag } } }`;

interface Founder {
  readonly id: string;
  readonly tag: string;
  readonly sex: string;
  readonly origin: string | null;
  readonly declaredUnrelated: boolean;
  readonly line: { id: string } | null;
  readonly spawn: { id: string; tag: string } | null;
}

let api: RunningApi;
let line = '';

beforeAll(async () => {
  api = await startApi();
  line = await newRecords(api).createLine({ code: 'T', name: 'Turquoise' });
});
afterAll(() => api.close());

const next = async (lineId: string | null, number = 1, kind = 'FISH'): Promise<string[]> =>
  (await api.graphql<{ nextTags: string[] }>(NEXT, { kind, lineId, number })).nextTags;

const record = async (input: object): Promise<Founder[]> =>
  (await api.graphql<{ recordFounders: Founder[] }>(FOUNDERS, { input })).recordFounders;

const broodOf = async (
  sireId: string,
  damId: string,
): Promise<{ inbreedingCoefficient: number }> => {
  const id = await newRecords(api).createSpawn({ tag: 'of sibs', sireId, damId });
  const read = 'query ($id: ID!) { spawn(id: $id) { inbreedingCoefficient } }';
  const { spawn } = await api.graphql<{ spawn: { inbreedingCoefficient: number } }>(read, { id });
  return spawn;
};

const countFish = async (): Promise<number> => {
  const records = await recordsOf(api);
  const found: { number: number }[] = await records.query(
    'SELECT count(*)::int AS number FROM fish',
  );
  return found[0]?.number ?? 0;
};

describe('the tags that follow', () => {
  it('begin with the code of a line that has none yet', async () => {
    expect(await next(line, 2)).toEqual(['T-01', 'T-02']);
    expect(await next(line, 1, 'SPAWN')).toEqual([
      expect.stringMatching(/^T\d\d-01$/) as unknown as string,
    ]);
  });

  it('are none without a line, where no tag tells how they are numbered', async () => {
    expect(await next(null)).toEqual([]);
  });

  it('go on from the tags of the line as its keeper writes them', async () => {
    const other = await newRecords(api).createLine({ code: 'B', name: 'Black' });
    for (const tag of ['B#8', 'B#9', 'old black'])
      await newRecords(api).createFish({ tag, sex: 'MALE', lineId: other });
    expect(await next(other, 2)).toEqual(['B#10', 'B#11']);
    // A line without a fish goes by the others.
    const third = await newRecords(api).createLine({ code: 'K', name: 'Koi' });
    expect(await next(third, 2)).toEqual(['K#1', 'K#2']);
  });

  it('leave out tags in use, of withdrawn fish too, and those that jarred fish have from their spawn', async () => {
    const made = newRecords(api);
    const other = await made.createLine({ code: 'M', name: 'Melano' });
    const withdrawn = await made.createFish({ tag: 'M-02', sex: 'MALE' });
    await made.createFish({ tag: 'M-01', sex: 'MALE', lineId: other });
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }', {
      input: { id: withdrawn, reason: 'a slip' },
    });
    const spawn = await made.createSpawn({ tag: 'M26-01', lineId: other });
    await made.addFishToSpawn({ spawnId: spawn, number: 5, sex: 'UNSEXED' });
    expect(await next(other)).toEqual(['M-03']);
    expect(await next(other, 1, 'SPAWN')).toEqual(['M26-02']);
  });

  it('are refused beyond a number', async () => {
    const { errors } = await api.send(NEXT, { kind: 'FISH', lineId: line, number: 51 });
    expect(errors?.[0]?.message).toContain('ask for 1 to 50');
  });
});

describe('founders recorded together', () => {
  const two = (from: string) => [
    { tag: `${from}1`, sex: 'MALE' },
    { tag: `${from}2`, sex: 'FEMALE' },
  ];

  it('as sibs are young of one spawn whose parents nobody knows', async () => {
    const fish = await record({ lineId: line, origin: 'a shop', relation: 'SIBS', fish: two('S') });
    expect(fish.map(({ tag }) => tag)).toEqual(['S1', 'S2']);
    expect(fish.map(({ spawn }) => spawn?.tag)).toEqual(['S1 sibs', 'S1 sibs']);
    // A brood of two sibs: its F is a quarter.
    const [sire, dam] = fish;
    const { inbreedingCoefficient } = await broodOf(sire!.id, dam!.id);
    expect(inbreedingCoefficient).toBeCloseTo(0.25, 12);
  });

  it('as unrelated say so, and as unknown say nothing', async () => {
    const [unrelated] = await record({ relation: 'UNRELATED', fish: two('U') });
    expect(unrelated).toMatchObject({ declaredUnrelated: true, spawn: null });
    const [unknown] = await record({ relation: 'UNKNOWN', fish: two('N') });
    expect(unknown).toMatchObject({ declaredUnrelated: false, spawn: null });
  });

  it('are saved all or none, and each fault is told beside its fish', async () => {
    const before = await countFish();
    const { errors } = await api.send(FOUNDERS, {
      input: {
        relation: 'SIBS',
        fish: [
          { tag: 'A1', sex: 'MALE' },
          { tag: 'A1', sex: 'MALE' },
          { tag: 'S1', sex: 'MALE' },
          { tag: ' ', sex: 'MALE' },
        ],
      },
    });
    expect(errors?.[0]?.extensions).toMatchObject({
      code: 'VALIDATION',
      fields: [{ field: 'fish.3.tag' }, { field: 'fish.1.tag' }, { field: 'fish.2.tag' }],
    });
    expect(await countFish()).toBe(before);
  });

  it('sent again after a lost answer are recorded once', async () => {
    const ids = [crypto.randomUUID(), crypto.randomUUID()];
    const input = { relation: 'SIBS', fish: two('L').map((one, at) => ({ ...one, id: ids[at] })) };
    const first = await record(input);
    const before = await countFish();
    expect(await record(input)).toEqual(first);
    expect(await countFish()).toBe(before);
  });

  it('of two who save one tag at once the second is told', async () => {
    const answers = await Promise.all(
      [1, 2].map(() => api.send(FOUNDERS, { input: { relation: 'UNKNOWN', fish: two('R') } })),
    );
    const codes = answers.map(({ errors }) => errors?.[0]?.extensions.code ?? 'saved');
    expect(codes.filter((code) => code === 'saved')).toHaveLength(1);
    expect(codes.filter((code) => /^(TAG_TAKEN|VALIDATION)$/.test(code))).toHaveLength(1);
  });

  it('sibs are two or more', async () => {
    const { errors } = await api.send(FOUNDERS, {
      input: { relation: 'SIBS', fish: [{ tag: 'O1', sex: 'MALE' }] },
    });
    expect(errors?.[0]?.message).toContain('two or more');
  });
});
