import { linkage, lodScore, weighInheritance, type LinkageBrood } from '@linewright/merit';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { mottled } from '../mottled-locus.js';
import { newRecords } from '../new-records.js';

const LINKAGE = `query ($broods: [LinkageBroodInput!]!) { linkage(broods: $broods) {
  recombination standardError lod low high verdict notCloserThan young
  inSires { recombination lod low high } inDams { recombination lod low high } } }`;
const HOW = `query ($locusId: ID!, $phenotype: String!) { howInherited(locusId: $locusId, phenotype: $phenotype) {
  locusId phenotype looked shown contradicting leftOut verdict ways { code meaning weight estimate } } }`;

const brood = (
  carrier: 'SIRE' | 'DAM' | 'BOTH',
  phase: 'TOGETHER' | 'APART' | 'UNKNOWN',
  [neither, firstOnly, secondOnly, both]: readonly [number, number, number, number],
) => ({ carrier, phase, neither, firstOnly, secondOnly, both });

interface Recombination {
  recombination: number;
  standardError: number | null;
  lod: number;
  low: number;
  high: number;
}
interface LinkageAnswer extends Recombination {
  verdict: string;
  notCloserThan: number;
  young: number;
  inSires: Recombination | null;
  inDams: Recombination | null;
}
interface How {
  locusId: string;
  phenotype: string;
  looked: number;
  shown: number;
  contradicting: number;
  leftOut: number;
  verdict: string;
  ways: { code: string; meaning: string; weight: number; estimate: number }[];
}

describe('how looks are inherited', () => {
  let api: RunningApi;
  let records: Records;

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
  });
  afterAll(() => api.close());

  const linked = async (...broods: object[]): Promise<LinkageAnswer> =>
    (await api.graphql<{ linkage: LinkageAnswer }>(LINKAGE, { broods })).linkage;
  const refused = async (query: string, variables: object) =>
    (await api.send(query, variables)).errors?.[0];

  it('tells two looks that go together as the engine does, and each sex alone', async () => {
    const found = await linked(
      brood('SIRE', 'TOGETHER', [19, 2, 1, 18]),
      brood('DAM', 'UNKNOWN', [1, 8, 8, 1]),
      brood('BOTH', 'TOGETHER', [41, 5, 4, 12]),
    );
    const sire: LinkageBrood = {
      kind: 'testcross',
      parent: 'sire',
      recombinant: 3,
      total: 40,
      phase: 'known',
    };
    const dam: LinkageBrood = {
      kind: 'testcross',
      parent: 'dam',
      recombinant: 16,
      total: 18,
      phase: 'unknown',
    };
    const both: LinkageBrood = { kind: 'intercross', counts: [41, 4, 5, 12], phase: 'coupling' };
    const { support, ...engine } = linkage([sire, dam, both]);
    expect(found).toMatchObject({ ...engine, low: support.low, high: support.high });
    expect(found.verdict).toBe('TOGETHER');
    expect(found.young).toBe(40 + 18 + 62);
    expect(found.inSires?.recombination).toBe(linkage([sire]).recombination);
    expect(found.inDams?.lod).toBe(linkage([dam]).lod);
  });

  it('reads the phase: what came apart comes together by recombination', async () => {
    const together = await linked(brood('SIRE', 'TOGETHER', [17, 3, 3, 17]));
    const apart = await linked(brood('SIRE', 'APART', [3, 17, 17, 3]));
    expect(apart).toEqual(together);
    expect(together.inDams).toBeNull();
  });

  it('cannot tell from few, and says how close the loci are not', async () => {
    expect((await linked(brood('DAM', 'TOGETHER', [2, 1, 1, 2]))).verdict).toBe('CANNOT_TELL');
    const free = await linked(brood('DAM', 'TOGETHER', [60, 58, 61, 62]));
    expect(free.verdict).toBe('APART');
    const engine: LinkageBrood[] = [
      { kind: 'testcross', recombinant: 119, total: 241, phase: 'known' },
    ];
    expect(lodScore(engine, free.notCloserThan)).toBeLessThanOrEqual(-2);
    expect(lodScore(engine, free.notCloserThan + 0.01)).toBeGreaterThan(-2);
  });

  it('refuses counts that cannot be, and no brood at all, plainly', async () => {
    const negative = await refused(LINKAGE, { broods: [brood('DAM', 'TOGETHER', [1, -1, 1, 1])] });
    expect(negative?.extensions.code).toBe('VALIDATION');
    expect(negative?.message).toContain('Brood 1 cannot have -1 young');
    expect((await refused(LINKAGE, { broods: [] }))?.extensions.code).toBe('MERIT_TOO_FEW');
  });

  it('weighs one locus, two and many over the records as the engine does', async () => {
    await newRecords(api).defineLocus({ ...mottled, scorableFromDays: 42 });
    const none = await refused(HOW, { locusId: 'mottle', phenotype: 'mottled' });
    expect(none?.extensions.code).toBe('MERIT_TOO_FEW');
    const sire = await records.fish('G-1', 'MALE');
    const dam = await records.fish('G-2', 'FEMALE');
    const other = await records.fish('G-3', 'FEMALE');
    const shown = [0, 0, 0];
    for (const fish of [sire, dam, other]) await records.seen(fish, 'mottle', 'plain');
    const arrays = { sire: [-1, -1, -1], dam: [-1, -1, -1], seen: shown };
    for (const [tag, mother, at, mottled] of [
      ['G26-01', dam, 1, 4],
      ['G26-02', other, 2, 0],
    ] as const) {
      const spawn = await records.spawn(tag, sire, mother);
      const young = await records.young(spawn, 12);
      for (const [k, fish] of young.entries()) {
        await records.seen(fish.id, 'mottle', k < mottled ? 'mottled' : 'plain');
        arrays.sire.push(0);
        arrays.dam.push(at);
        arrays.seen.push(Number(k < mottled));
      }
    }
    const ask = async (phenotype: string) =>
      (await api.graphql<{ howInherited: How }>(HOW, { locusId: 'mottle', phenotype }))
        .howInherited;
    const found = await ask('Mottled');
    expect(found).toMatchObject({ looked: 27, shown: 4, contradicting: 0, leftOut: 0 });
    const engine = weighInheritance(
      pedigreeFromArrays(Int32Array.from(arrays.sire), Int32Array.from(arrays.dam)),
      arrays.seen,
    );
    expect(found.ways).toHaveLength(engine.hypotheses.length);
    for (const { code, meaning, weight, estimate } of engine.hypotheses) {
      const way = found.ways.find((one) => one.code === code);
      expect(way?.meaning).toBe(meaning);
      expect(way?.weight).toBeCloseTo(weight, 8);
      expect(way?.estimate).toBeCloseTo(estimate, 8);
    }
    expect(found.ways.map(({ weight }) => weight)).toEqual(
      found.ways.map(({ weight }) => weight).toSorted((x, y) => y - x),
    );
    // Few fish: one locus and two explain them alike.
    expect([engine.verdict, found.verdict]).toEqual([null, 'CANNOT_TELL']);
    // A second look that says otherwise, and one that came too early.
    await records.seen(sire, 'mottle', 'mottled');
    await records.seen(dam, 'mottle', 'mottled', { ageDays: 10 });
    expect(await ask('mottled')).toMatchObject({ looked: 26, shown: 4, contradicting: 1 });
  });

  it('finds the broods on record that tell of two looks, their carriers and phases', async () => {
    await newRecords(api).defineLocus({
      locusId: 'fleck',
      name: 'Fleck',
      alleles: [
        { symbol: 'Fl', name: 'clear' },
        { symbol: 'fl', name: 'flecked' },
      ],
      looks: [
        { genotype: 'Fl/-', phenotype: 'clear' },
        { genotype: 'fl/fl', phenotype: 'flecked' },
      ],
    });
    const look = async (fish: string, mottled: boolean, flecked: boolean) => {
      await records.seen(fish, 'mottle', mottled ? 'mottled' : 'plain');
      await records.seen(fish, 'fleck', flecked ? 'flecked' : 'clear');
    };
    const made = async (tag: string, sex: 'MALE' | 'FEMALE', a: boolean, b: boolean) => {
      const fish = await records.fish(tag, sex);
      await look(fish, a, b);
      return fish;
    };
    const both = await made('K-1', 'MALE', true, true);
    const neither = await made('K-2', 'FEMALE', false, false);
    const first = await made('K-3', 'MALE', true, false);
    const second = await made('K-4', 'FEMALE', false, true);
    const youngOf = async (tag: string, sire: string, dam: string, count: number) =>
      records.young(await records.spawn(tag, sire, dam), count);
    const [coupled] = await youngOf('K26-01', both, neither, 1);
    const [apart] = await youngOf('K26-02', first, second, 1);
    await look(coupled!.id, false, false);
    await look(apart!.id, false, false);
    // Of a carrier and a partner that shows both: by looks of the young.
    const seen = await youngOf('K26-03', coupled!.id, await made('K-5', 'FEMALE', true, true), 4);
    for (const [k, fish] of seen.entries()) await look(fish.id, k < 2, k % 2 === 0);
    // Of two carriers of one phase unlike: by a count of the brood.
    const counted = await records.spawn('K26-04', coupled!.id, apart!.id);
    for (const [phenotype, number] of [
      ['plain, clear', 20],
      ['mottled, clear', 5],
      ['plain, flecked', 6],
      ['mottled, flecked', 1],
    ] as const)
      await api.graphql(
        `mutation ($input: ClassCountInput!) { recordClassCount(input: $input) { id } }`,
        {
          input: {
            spawnId: counted,
            locusIds: ['mottle', 'fleck'],
            phenotype,
            number,
            countedOn: '2026-05-01',
          },
        },
      );
    const ask = (other: string) =>
      [
        `query ($first: LookInput!, $second: LookInput!) { linkageBroods(first: $first, second: $second) {
         spawnTag carrier phase both firstOnly secondOnly neither } }`,
        {
          first: { locusId: 'mottle', phenotype: 'mottled' },
          second: { locusId: other, phenotype: other === 'fleck' ? 'flecked' : 'plain' },
        },
      ] as const;
    const found = await api.graphql<{ linkageBroods: { spawnTag: string }[] }>(...ask('fleck'));
    expect(found.linkageBroods.toSorted((a, b) => a.spawnTag.localeCompare(b.spawnTag))).toEqual([
      {
        spawnTag: 'K26-03',
        carrier: 'SIRE',
        phase: 'TOGETHER',
        ...{ both: 1, firstOnly: 1, secondOnly: 1, neither: 1 },
      },
      {
        spawnTag: 'K26-04',
        carrier: 'BOTH',
        phase: 'UNKNOWN',
        ...{ both: 1, firstOnly: 5, secondOnly: 6, neither: 20 },
      },
    ]);
    expect((await refused(...ask('mottle')))?.extensions.code).toBe('VALIDATION');
  });

  it('tells an unknown look and an unknown locus', async () => {
    const look = await refused(HOW, { locusId: 'mottle', phenotype: 'striped' });
    expect(look?.extensions.code).toBe('PHENOTYPE_UNKNOWN');
    expect(look?.message).toContain('mottled');
    const locus = await refused(HOW, { locusId: 'nowhere', phenotype: 'x' });
    expect(locus?.extensions.code).toBe('LOCUS_UNKNOWN');
  });
});
