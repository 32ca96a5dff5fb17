import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { saidOf } from './said-purpose.js';
import { creation, newRecords } from '../new-records.js';

const YOUNG = `fish { id tag sex } worth standardError place of advice alleles { locusId alleleId chance others last }`;
const KEEPING = `query ($spawnId: ID!, $first: Int, $after: String, $fishId: ID!) { broodKeeping(spawnId: $spawnId) {
  lineId purposeVersion hasAims matesAre mateCount mateTotal living kinshipWithLine leftOut problem notCounted { reason }
  number { males females basis roundId keep broods lost } kept { males females others }
  alleles { locusId alleleId name carriers lastKnown }
  young(first: $first, after: $after) { edges { node { ${YOUNG} } } totalCount pageInfo { hasNextPage endCursor } }
  oneYoung(fishId: $fishId) { ${YOUNG} } } }`;
const PAIR = `query ($s: ID!, $d: ID!, $input: PairingInput) { plannedBrood(sireId: $s, damId: $d, input: $input) {
  inbreedingCoefficient worth { points } } }`;

interface Young {
  fish: { id: string; tag: string; sex: string };
  worth: number;
  standardError: number;
  place: number;
  of: number;
  advice: string;
  alleles: {
    alleleId: string;
    chance: number | null;
    others: number;
    last: number | null;
  }[];
}
interface Keeping {
  problem: string | null;
  hasAims: boolean;
  matesAre: string;
  mateCount: number;
  mateTotal: number;
  living: number;
  kinshipWithLine: number | null;
  number: { males: number; females: number; basis: string; roundId: string | null; broods: number };
  kept: { males: number; females: number; others: number };
  alleles: { carriers: number; lastKnown: boolean }[];
  young: {
    edges: { node: Young }[];
    totalCount: number;
    pageInfo: { hasNextPage: boolean; endCursor: string };
  };
  oneYoung: Young | null;
}

describe('whom of a brood to keep', () => {
  let api: RunningApi;
  let records: Records;
  let lineId = '';
  let traitId = '';
  let spawnId = '';
  const ids = new Map<string, string>();
  const of = (tag: string): string => ids.get(tag)!;

  const keeping = async (
    more: { fishId?: string; first?: number; after?: string; spawnId?: string } = {},
  ) => {
    const asked = { spawnId, fishId: of('y1'), first: 50, ...more };
    return (await api.graphql<{ broodKeeping: Keeping }>(KEEPING, asked)).broodKeeping;
  };
  const youngOf = ({ young }: Keeping): Young[] => young.edges.map(({ node }) => node);
  const decide = (tag: string, disposition: string) =>
    api.graphql(`mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }`, {
      input: { id: of(tag), disposition, on: today(), reason: 'sorted' },
    });
  const say = (expectedVersion: number, more: Parameters<typeof saidOf>[0]) =>
    api.graphql(
      `mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { version } }`,
      { input: { lineId, expectedVersion, content: saidOf(more) } },
    );
  const aims = () => ({
    traits: [{ traitId, better: 'HIGHER', low: null, high: null, worth: 0.5 }],
    looks: [
      {
        show: [{ locusId: 'dt', phenotype: 'double' }],
        ...{ wanted: true, worth: 5, required: false },
      },
    ],
  });

  const tested = (tag: string, genotype: string) =>
    newRecords(api).recordGenotype({
      fishId: of(tag),
      locusId: 'dt',
      genotype,
      basis: 'LABORATORY',
    });

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    lineId = await records.line('K');
    traitId = await newRecords(api).createTrait({
      ...{ key: 'spread', name: 'spread', kind: 'MEASURED', unit: '°' },
      ...{ minimum: 0, maximum: 240, higherIsBetter: true },
    });
    const fish = async (tag: string, sex: 'MALE' | 'FEMALE', more: object = {}) => {
      ids.set(tag, await records.fish(tag, sex, { hatchDate: daysAgo(300), lineId, ...more }));
    };
    await fish('S', 'MALE', { disposition: 'DIED', hatchDate: daysAgo(600) });
    await fish('D', 'FEMALE', { hatchDate: daysAgo(600) });
    await fish('K1', 'FEMALE');
    await fish('K2', 'FEMALE');
    await fish('O', 'MALE');
    // Tested genotypes leave nothing open; what is seen may be seen wrongly.
    await tested('S', 'dt/dt');
    await tested('D', 'Dt/Dt');
    await tested('K2', 'Dt/Dt');
    for (const tag of ['K1', 'O'])
      await records.seen(of(tag), 'dt', 'single', { seenOn: daysAgo(20) });
    await decide('O', 'CULLED');
    spawnId = await records.spawn('KB', of('S'), of('D'), { lineId, spawnedOn: daysAgo(160) });
    const young = { spawnId, hatchDate: daysAgo(158), disposition: 'UNSORTED' };
    const score = (tag: string, value: number) =>
      newRecords(api).recordScores({
        ...{ fishId: of(tag), scoredOn: daysAgo(20) },
        scores: [{ traitId, value }],
      });
    for (const [tag, sex, value] of [
      ...([['y1', 'MALE', 190] as const, ['y2', 'MALE', 150] as const] as const),
      ...([['y3', 'MALE', 172] as const, ['y4', 'FEMALE', 181] as const] as const),
      ['y5', 'FEMALE', 160] as const,
    ]) {
      await fish(tag, sex, young);
      await score(tag, value);
    }
    for (const [tag, value] of [
      ...([['D', 170] as const, ['K1', 166] as const] as const),
      ['K2', 174] as const,
    ])
      await score(tag, value);
  });
  afterAll(() => api.close());

  it('is asked for before it is said what the line is for, and says so', async () => {
    const told = await keeping();
    expect(told).toMatchObject({ hasAims: false, number: { basis: 'GUIDE' }, problem: null });
    // One male of three; both females.
    expect(told.number).toMatchObject({ males: 1, females: 2 });
    for (const { fish, advice } of youngOf(told))
      expect(advice).toBe(fish.sex === 'MALE' ? 'CANNOT_TELL' : 'KEEP');
  });

  it('is the mean worth of its pairs with the line’s keepers, as the pair’s page tells it', async () => {
    await say(0, { ...aims(), broods: 2, keep: 6, inbreedingCost: 3 });
    const told = await keeping();
    expect(told).toMatchObject({
      hasAims: true,
      matesAre: 'KEEPERS',
      mateCount: 3,
      mateTotal: 3,
      living: 8,
    });
    const input = { lineIds: [lineId], includePartners: true };
    for (const tag of ['y1', 'y2']) {
      const pairs = [];
      for (const dam of ['D', 'K1', 'K2']) {
        const asked = { s: of(tag), d: of(dam), input };
        const { plannedBrood } = await api.graphql<{
          plannedBrood: { inbreedingCoefficient: number; worth: { points: number } };
        }>(PAIR, asked);
        pairs.push(plannedBrood);
      }
      const mean = (list: number[]) => list.reduce((sum, one) => sum + one / list.length, 0);
      const young = youngOf(told).find(({ fish }) => fish.tag === tag)!;
      expect(young.worth).toBeCloseTo(mean(pairs.map(({ worth }) => worth.points)), 9);
      expect(told.kinshipWithLine).toBeCloseTo(
        mean(pairs.map(({ inbreedingCoefficient }) => inbreedingCoefficient)),
        12,
      );
    }
  });

  it('stands in order of worth, page by page, and one young alone is the same', async () => {
    const all = youngOf(await keeping());
    const worths = all.map(({ worth }) => worth);
    expect(worths).toEqual(worths.toSorted((a, b) => b - a));
    expect(all[0]!.fish.tag).toBe('y1');
    const males = all.filter(({ fish }) => fish.sex === 'MALE');
    expect(males.map(({ place, of: count }) => [place, count])).toEqual([
      ...[
        [1, 3],
        [2, 3],
        [3, 3],
      ],
    ]);
    const paged: Young[] = [];
    for (let after: string | undefined; ;) {
      const { young } = await keeping({ first: 2, ...(after !== undefined && { after }) });
      expect(young.totalCount).toBe(5);
      paged.push(...young.edges.map(({ node }) => node));
      if (!young.pageInfo.hasNextPage) break;
      after = young.pageInfo.endCursor;
    }
    expect(paged).toEqual(all);
    const { oneYoung } = await keeping({ fishId: of('y5') });
    expect(oneYoung).toEqual(all.find(({ fish }) => fish.tag === 'y5'));
    expect((await keeping({ fishId: of('K1') })).oneYoung).toBeNull();
  });

  it('has the error of half the value that stands on the fish’s page, in points', async () => {
    const { fish } = await api.graphql<{
      fish: { merit: { value: { standardError: number } }[] };
    }>(`query ($id: ID!) { fish(id: $id) { merit { value { standardError } } } }`, {
      id: of('y1'),
    });
    const { oneYoung } = await keeping();
    const share = oneYoung!.standardError / (0.5 * 0.5 * fish.merit[0]!.value.standardError);
    // What the young carry is known for sure.
    expect(share).toBeCloseTo(1, 6);
  });

  it('counts who else carries it, and warns only of the last of those alive', async () => {
    const told = await keeping();
    const chance = async (tag: string) => {
      const by = await records.chances(of(tag), 'dt');
      return (by['Dt/dt'] ?? 0) + (by['dt/dt'] ?? 0);
    };
    const k1 = await chance('K1');
    expect(k1).toBeGreaterThan(0.01);
    for (const { alleles } of youngOf(told)) {
      expect(alleles[0]).toMatchObject({ alleleId: 'double', last: 0 });
      expect(alleles[0]!.chance).toBeCloseTo(1, 8);
      expect(alleles[0]!.others).toBeCloseTo(4 + k1, 6);
    }
    expect(told.alleles[0]).toMatchObject({ lastKnown: true });
    expect(told.alleles[0]!.carriers).toBeCloseTo(5 + k1, 6);

    for (const tag of ['y1', 'y3', 'y4', 'y5']) await decide(tag, 'CULLED');
    const left = youngOf(await keeping({ fishId: of('y2') }));
    expect(left.map(({ fish }) => fish.tag)).toEqual(['y2']);
    // Of the others only one may carry it, and she is not related to the young.
    expect(left[0]!.alleles[0]!.last).toBeCloseTo(1 - k1, 6);
    expect(left[0]!.advice).toBe('KEEP');
    await tested('K1', 'Dt/Dt');
    const [sure] = youngOf(await keeping({ fishId: of('y2') }));
    expect(sure).toMatchObject({
      advice: 'LAST_CARRIER',
      alleles: [{ chance: 1, others: 0, last: 1 }],
    });
    for (const tag of ['y1', 'y3', 'y4', 'y5']) await decide(tag, 'UNSORTED');
  });

  it('keeps what the round asks for, and more when a pair of it came to nothing', async () => {
    expect((await keeping()).number).toMatchObject({
      ...{ males: 1, females: 2, basis: 'PURPOSE', keep: 6, broods: 2, roundId: null },
    });
    await decide('y1', 'KEEPER');
    await decide('y2', 'KEEPER');
    const pairs = [
      { sireId: of('y1'), damId: of('K1') },
      { sireId: of('y2'), damId: of('K2') },
    ];
    const { adoptRound } = await api.graphql<{
      adoptRound: { id: string; pairs: { pairing: { id: string; sire: { id: string } } }[] };
    }>(
      `mutation ($input: AdoptRoundInput!) { adoptRound(input: $input) { id pairs { pairing { id sire { id } } } } }`,
      {
        input: {
          ...{ lineId, expectedPurposeVersion: 1, plannedOn: today(), pairs, confirmed: true },
        },
      },
    );
    const plan = (tag: string) =>
      adoptRound.pairs.find(({ pairing }) => pairing.sire.id === of(tag))!.pairing.id;
    const spawnOf = async (tag: string, pairingId: string) => {
      const { createSpawn } = await api.graphql<{ createSpawn: { id: string; revision: number } }>(
        creation('createSpawn', 'id revision'),
        { input: { tag, pairingId, lineId, spawnedOn: today() } },
      );
      return createSpawn;
    };
    const first = await spawnOf('R1', plan('y1'));
    const other = await spawnOf('R2', plan('y2'));
    const ofRound = (await keeping({ spawnId: first.id })).number;
    expect(ofRound).toMatchObject({
      ...{ males: 1, females: 2, basis: 'ROUND', roundId: adoptRound.id, broods: 2, lost: 0 },
    });
    // Of the other brood a female was kept: the odd one is a male here.
    await records.fish('z1', 'FEMALE', { lineId, spawnId: other.id, disposition: 'KEEPER' });
    expect((await keeping({ spawnId: first.id })).number).toMatchObject({ males: 2, females: 1 });
    await api.graphql(
      `mutation ($input: CorrectSpawnInput!) { correctSpawn(input: $input) { id } }`,
      {
        input: { id: other.id, revision: other.revision, failed: true, failedReason: 'eaten' },
      },
    );
    expect((await keeping({ spawnId: first.id })).number).toMatchObject({
      ...{ males: 3, females: 3, broods: 1, lost: 1 },
    });
  });

  it('says why there is nothing to tell', async () => {
    const bare = await records.spawn('NB', of('y1'), of('K1'), { spawnedOn: today() });
    expect((await keeping({ spawnId: bare })).problem).toMatch(/no line/u);
    const none = await records.spawn('NY', of('y1'), of('K2'), { lineId, spawnedOn: today() });
    expect((await keeping({ spawnId: none })).problem).toMatch(/no.*record/iu);
  });
});
