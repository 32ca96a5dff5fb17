import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { newRecords } from '../new-records.js';

const PAIR = `query ($sireId: ID!, $damId: ID!, $broodSize: Int!) {
  pairOutlook(sireId: $sireId, damId: $damId, broodSize: $broodSize) {
    warnings { severity title }
    loci { locusId lostShare impossible risks
      classes { phenotype probability canGive anyInBrood countLow countHigh fryForOne95 }
      pairs { sire dam probability ratio } } } }`;

const BROOD = `query ($spawnId: ID!) { broodOutlook(spawnId: $spawnId) {
  setAside
  loci { locusId total counted verdict fryToTell impossible
    classes { phenotype observed expectedShare countLow countHigh }
    pairs { sire dam ratio before after }
    fit { pValue method }
    rivals { name weight timesLessLikely pValue }
    heterogeneity { ratio g degreesOfFreedom pValue verdict broods { counts spawn { tag } } } } } }`;

interface PairAnswer {
  pairOutlook: {
    warnings: { severity: string; title: string }[];
    loci: {
      locusId: string;
      lostShare: number;
      impossible: string | null;
      classes: {
        phenotype: string;
        probability: number;
        canGive: number;
        anyInBrood: number;
        countLow: number;
        countHigh: number;
        fryForOne95: number | null;
      }[];
      pairs: { sire: string; dam: string; probability: number; ratio: string }[];
    }[];
  };
}

interface BroodAnswer {
  broodOutlook: {
    setAside: string[];
    loci: {
      locusId: string;
      total: number;
      counted: string;
      verdict: string;
      fryToTell: number | null;
      classes: { phenotype: string; observed: number; expectedShare: number }[];
      pairs: { sire: string; dam: string; ratio: string; before: number; after: number }[];
      fit: { pValue: number } | null;
      rivals: { name: string; weight: number; timesLessLikely: number | null }[];
      heterogeneity: {
        degreesOfFreedom: number;
        verdict: string;
        broods: { counts: number[]; spawn: { tag: string } }[];
      } | null;
    }[];
  };
}

/** Genotypes of double tail by copies of the recessive allele. */
const HARDY = (q: number): number[] => [(1 - q) ** 2, 2 * q * (1 - q), q ** 2];
/** Chance of each genotype of a young fish of parents with so many copies. */
const passed = (a: number, b: number): number[] => {
  const [x, y] = [a / 2, b / 2];
  return [(1 - x) * (1 - y), x * (1 - y) + (1 - x) * y, x * y];
};

describe('what fish are likely to carry', () => {
  let api: RunningApi;
  let records: Records;
  let sire: string;
  let dam: string;
  let spawnId: string;
  let young: { id: string; tag: string }[];

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    await records.setting({ locusId: 'dt', misScoring: 0 });
    sire = await records.fish('A-1', 'MALE', { disposition: 'KEEPER' });
    dam = await records.fish('A-2', 'FEMALE', { disposition: 'KEEPER' });
    spawnId = await records.spawn('A26-01', sire, dam);
    young = await records.young(spawnId, 3);
    await records.seen(sire, 'dt', 'single');
    await records.seen(dam, 'dt', 'single tail');
    await records.seen(young[0]?.id ?? '', 'dt', 'double');
    await records.seen(young[1]?.id ?? '', 'dt', 'single');
  });
  afterAll(() => api.close());

  it('a single tail of two proven carriers is a carrier two times in three', async () => {
    expect(await records.chances(sire, 'dt')).toEqual({ 'Dt/dt': expect.closeTo(1, 12) });
    const chances = await records.chances(young[1]?.id ?? '', 'dt');
    expect(chances['Dt/dt']).toBeCloseTo(2 / 3, 9);
    expect(chances['Dt/Dt']).toBeCloseTo(1 / 3, 9);
    // Not looked at yet: a quarter, a half, a quarter.
    const unseen = await records.chances(young[2]?.id ?? '', 'dt');
    expect(unseen['dt/dt']).toBeCloseTo(1 / 4, 9);
  });

  it('names the records that moved it', async () => {
    const { carrierReasons } = await api.graphql<{
      carrierReasons: {
        tried: number;
        beforeRecords: { genotype: string; probability: number }[];
        reasons: { relation: string; text: string; weight: number; fish: { tag: string } }[];
        assumed: string[];
      };
    }>(
      `query ($fishId: ID!) { carrierReasons(fishId: $fishId, locusId: "dt") {
         tried assumed beforeRecords { genotype probability }
         reasons { relation text weight fish { tag } } } }`,
      { fishId: young[1]?.id },
    );
    expect(carrierReasons.tried).toBe(4);
    const sib = carrierReasons.reasons.find((one) => one.relation === 'a full sib');
    expect(sib?.fish.tag).toBe('A26-01-01');
    expect(sib?.text).toMatch(/seen to be double tail/);
    // Of the two parents' looks neither alone moves it once the double-tailed sib is known to be theirs.
    expect(carrierReasons.reasons.map((one) => one.relation)).toContain('the fish itself');
    expect(carrierReasons.assumed.join(' ')).toMatch(/equally common/);
  });

  it('a brood by a double tail without any in it makes a carrier unlikely, by the odds', async () => {
    const tester = await records.fish('T-1', 'MALE');
    await records.seen(tester, 'dt', 'double');
    const test = await records.spawn('T26-01', tester, young[1]?.id ?? '');
    await records.counted(test, 'dt', { 'single tail': 6, 'double tail': 0 });
    // Prior odds 2:1, six single tails at 1/2 each against certainty: 2/64 to 1.
    const chances = await records.chances(young[1]?.id ?? '', 'dt');
    expect(chances['Dt/dt']).toBeCloseTo(2 / 66, 9);
    // The sib by the same parents is not tested: unchanged.
    expect((await records.chances(young[2]?.id ?? '', 'dt'))['dt/dt']).toBeCloseTo(1 / 4, 9);
  });

  it('agrees with going through every genotype of a family, mis-scoring allowed', async () => {
    const line = await records.line('BF');
    const error = 0.05;
    const q = 0.2;
    await records.setting({
      locusId: 'dt',
      lineId: line,
      misScoring: error,
      frequencies: [
        { alleleId: 'Dt', frequency: 1 - q },
        { alleleId: 'double', frequency: q },
      ],
    });
    const father = await records.fish('BF-1', 'MALE', { lineId: line });
    const mother = await records.fish('BF-2', 'FEMALE', { lineId: line });
    const brood = await records.spawn('BF26-01', father, mother, { lineId: line });
    await records.counted(brood, 'dt', { 'single tail': 7, 'double tail': 1 });
    const [child] = await records.young(brood, 1);
    await records.seen(father, 'dt', 'single');
    const single = (g: number): number => (g === 2 ? error : 1 - error);
    const posterior = [0, 0, 0];
    for (const f of [0, 1, 2]) {
      for (const m of [0, 1, 2]) {
        const shares = passed(f, m);
        const singles = shares.reduce((sum, share, g) => sum + share * single(g), 0);
        const parents = (HARDY(q)[f] ?? 0) * (HARDY(q)[m] ?? 0) * single(f);
        const counts = 8 * singles ** 7 * (1 - singles);
        shares.forEach((share, g) => (posterior[g]! += parents * counts * share));
      }
    }
    const sum = posterior.reduce((a, b) => a + b, 0);
    const chances = await records.chances(child?.id ?? '', 'dt');
    expect(chances['Dt/Dt']).toBeCloseTo((posterior[0] ?? 0) / sum, 8);
    expect(chances['Dt/dt']).toBeCloseTo((posterior[1] ?? 0) / sum, 8);
    expect(chances['dt/dt']).toBeCloseTo((posterior[2] ?? 0) / sum, 8);
  });

  it('does not take a brood for all melano of which the other half follows from the parents', async () => {
    const set = (fishId: string, genotype: string, basis: 'ASSUMED' | 'PARENTS') =>
      newRecords(api).recordGenotype({ fishId, locusId: 'm', genotype, basis });
    const black = await records.fish('H-1', 'MALE');
    const mother = await records.fish('H-2', 'FEMALE');
    await set(black, 'm/m', 'ASSUMED');
    await records.seen(mother, 'm', 'ordinary');
    const alone = (await records.chances(mother, 'm'))['m/m'] ?? NaN;
    const brood = await records.young(await records.spawn('H26-01', black, mother), 12);
    for (const [i, one] of brood.entries())
      await set(one.id, i % 2 === 0 ? 'm/m' : 'M/m', i % 2 === 0 ? 'ASSUMED' : 'PARENTS');
    const chances = await records.chances(mother, 'm');
    expect(alone).toBeLessThan(0.02);
    expect(chances['m/m']).toBeLessThanOrEqual(alone);
    expect(chances['M/m']).toBeGreaterThan(0.99);
    // As recorded: the sibs put down from the parents are not read as melano.
    expect((await records.chances(brood[1]?.id ?? '', 'm'))['M/m']).toBeGreaterThan(0.95);
    expect((await records.chances(brood[0]?.id ?? '', 'm'))['m/m']).toBeGreaterThan(0.95);
  });

  it('plans a pair as a mixture of what the two may be', async () => {
    const { pairOutlook } = await api.graphql<PairAnswer>(PAIR, {
      sireId: sire,
      damId: young[2]?.id,
      broodSize: 40,
    });
    const dt = pairOutlook.loci.find((one) => one.locusId === 'dt');
    // A carrier by a fish that is 1/4, 1/2, 1/4: doubles in 0, 1/4 and 1/2 of the young.
    const double = dt?.classes.find((one) => one.phenotype === 'double tail');
    expect(double?.probability).toBeCloseTo(1 / 4, 9);
    expect(double?.canGive).toBeCloseTo(3 / 4, 9);
    expect(double?.anyInBrood).toBeCloseTo(
      1 - (1 / 4 + (1 / 2) * 0.75 ** 40 + (1 / 4) * 0.5 ** 40),
      9,
    );
    // One time in four no number of fry shows one: 95 in 100 cannot be reached.
    expect(double?.fryForOne95).toBeNull();
    expect(double?.countLow).toBe(0);
    expect(dt?.pairs[0]).toMatchObject({ sire: 'Dt/dt', dam: 'Dt/dt', ratio: '3:1' });
  });

  it('warns of a dam that may be melano, and not of one seen to be ordinary', async () => {
    const black = await records.fish('M-1', 'MALE');
    const unseen = await records.fish('M-2', 'FEMALE');
    const ordinary = await records.fish('M-3', 'FEMALE');
    await records.seen(black, 'm', 'melano');
    await records.seen(ordinary, 'm', 'ordinary');
    const titles = async (damId: string): Promise<string[]> => {
      const { pairOutlook } = await api.graphql<PairAnswer>(PAIR, {
        sireId: black,
        damId,
        broodSize: 100,
      });
      expect(pairOutlook.loci.map((one) => one.locusId)).toEqual(['m']);
      return pairOutlook.warnings.map((one) => one.title);
    };
    expect(await titles(unseen)).toContain('Dam may be melano');
    expect(await titles(ordinary)).not.toContain('Dam may be melano');
  });

  it('holds a brood against what was thought before it, and its rivals against each other', async () => {
    const a = await records.fish('B-1', 'MALE');
    const b = await records.fish('B-2', 'FEMALE');
    await records.seen(a, 'dt', 'single');
    await records.seen(b, 'dt', 'single');
    const first = await records.spawn('B26-01', a, b);
    const second = await records.spawn('B26-02', a, b, { confirmed: true });
    await records.counted(first, 'dt', { 'single tail': 73, 'double tail': 23 });
    await records.counted(second, 'dt', { 'single tail': 31, 'double tail': 9 });
    const { broodOutlook } = await api.graphql<BroodAnswer>(BROOD, { spawnId: first });
    const [dt] = broodOutlook.loci;
    expect(dt?.total).toBe(96);
    expect(dt?.pairs[0]).toMatchObject({ sire: 'Dt/dt', dam: 'Dt/dt', ratio: '3:1' });
    expect(dt?.pairs[0]?.after).toBeCloseTo(1, 9);
    // The second brood had shown it already, so the first was no surprise.
    expect(dt?.classes.find((one) => one.phenotype === 'double tail')?.expectedShare).toBeCloseTo(
      1 / 4,
      6,
    );
    expect(dt?.fit?.pValue).toBeGreaterThan(0.5);
    expect(dt?.rivals[0]?.name).toMatch(/Dt\/dt × Dt\/dt/);
    // 96 young rule out 9:7 but cannot tell 3:1 from 13:3; it says how many would.
    expect(dt?.verdict).toMatch(/do not tell.*every fry raised needs a home/);
    expect(dt?.fryToTell).toBeGreaterThan(96);
    const nineToSeven = dt?.rivals.find((one) => one.name.includes('9:7'));
    // Fits worse or, with no number, cannot be: but it stands in the list.
    expect(nineToSeven).toBeDefined();
    expect(nineToSeven!.timesLessLikely ?? Infinity).toBeGreaterThan(20);
    expect(dt?.heterogeneity?.broods.map((one) => one.spawn.tag)).toEqual(['B26-01', 'B26-02']);
    expect(dt?.heterogeneity?.degreesOfFreedom).toBe(1);
    expect(dt?.heterogeneity?.verdict).toMatch(/agree/);
  });

  it('offers no ratio of two loci to a double tail by a carrier: the pedigree settles it', async () => {
    const double = await records.fish('R-1', 'MALE');
    await records.seen(double, 'dt', 'double');
    const spawn = await records.spawn('R26-01', double, dam);
    await records.counted(spawn, 'dt', { 'single tail': 54, 'double tail': 42 });
    const { broodOutlook } = await api.graphql<BroodAnswer>(BROOD, { spawnId: spawn });
    const [dt] = broodOutlook.loci;
    expect(dt?.pairs[0]).toMatchObject({ sire: 'dt/dt', dam: 'Dt/dt', ratio: '1:1' });
    expect(dt?.rivals).toEqual([]);
    expect(dt?.fryToTell).toBeNull();
    expect(dt?.verdict).toMatch(/the pedigree settles it/);
    expect(dt?.verdict).not.toMatch(/fit it poorly/);
  });

  it('adds heritable culls made before the count, and takes out young with a record of their own', async () => {
    const a = await records.fish('C-1', 'MALE');
    const b = await records.fish('C-2', 'FEMALE');
    const spawn = await records.spawn('C26-01', a, b);
    const loss = (on: string, number: number, more: object) =>
      newRecords(api).recordSpawnLoss({
        spawnId: spawn,
        kind: 'CULLED',
        on,
        number,
        reason: 'too short',
        heritable: true,
        ...more,
      });
    await loss('2026-04-01', 5, { locusId: 'dt', phenotype: 'double' });
    await loss('2026-04-02', 4, { locusId: 'dt' });
    await loss('2026-06-01', 3, { locusId: 'dt', phenotype: 'double' });
    await records.counted(spawn, 'dt', { 'single tail': 20, 'double tail': 3 });
    const [own] = await records.young(spawn, 1);
    await records.seen(own?.id ?? '', 'dt', 'double');
    const { broodOutlook } = await api.graphql<BroodAnswer>(BROOD, { spawnId: spawn });
    const [dt] = broodOutlook.loci;
    expect(dt?.total).toBe(28);
    expect(dt?.classes.find((one) => one.phenotype === 'double tail')?.observed).toBe(8);
    expect(dt?.counted).toMatch(/5 culled before are added; 1 with a record of their own/);
    expect(broodOutlook.setAside.join(' ')).toMatch(/4 culled of C26-01/);
  });

  it('ranks test matings, a known double tail first, with the fry they take', async () => {
    const { testMatings } = await api.graphql<{
      testMatings: {
        allele: string;
        carries: number;
        matings: {
          name: string;
          fryNeeded: number | null;
          partner: { tag: string } | null;
          bits: number;
        }[];
      };
    }>(
      `query ($input: TestMatingsInput!) { testMatings(input: $input) {
         allele carries matings { name fryNeeded bits partner { tag } } } }`,
      { input: { fishId: young[2]?.id, locusId: 'dt', allele: 'dt', fry: 12 } },
    );
    expect(testMatings.allele).toBe('dt');
    expect(testMatings.carries).toBeCloseTo(3 / 4, 9);
    expect(testMatings.matings[0]?.name).toMatch(/dt\/dt \(double tail\)/);
    expect(testMatings.matings[0]?.fryNeeded).toBe(5);
    const carrier = testMatings.matings.find((one) => one.partner?.tag === 'A-1');
    expect(carrier?.fryNeeded).toBe(11);
  });

  it('a test mating counts only young that can be seen: albino hides melano', async () => {
    const genotype = async (fishId: string, locusId: string, text: string): Promise<void> => {
      await newRecords(api).recordGenotype({
        fishId,
        locusId,
        genotype: text,
        basis: 'TEST_MATING',
      });
    };
    const lineId = await records.line('Q');
    const more = { disposition: 'KEEPER', lineId };
    const female = await records.fish('Q-1', 'FEMALE', more);
    await genotype(female, 'al', 'Al/al');
    await records.seen(female, 'm', 'ordinary');
    for (const tag of ['Q-2', 'Q-3', 'Q-4', 'Q-5']) {
      const male = await records.fish(tag, 'MALE', more);
      await genotype(male, 'm', 'm/m');
      if (tag === 'Q-2') await genotype(male, 'al', 'Al/Al');
      if (tag === 'Q-3') await records.seen(male, 'al', 'albino');
      if (tag === 'Q-4') await genotype(male, 'al', 'al/al');
    }
    const { testMatings } = await api.graphql<{
      testMatings: {
        assumed: string[];
        notKnownCount: number;
        matings: {
          partner: { tag: string } | null;
          bits: number | null;
          showing: number | null;
          fryNeeded: number | null;
          notKnown: string | null;
        }[];
      };
    }>(
      `query ($input: TestMatingsInput!) { testMatings(input: $input) {
         assumed notKnownCount
         matings { bits showing fryNeeded notKnown partner { tag } } } }`,
      { input: { fishId: female, locusId: 'm', allele: 'm', fry: 12, lineId } },
    );
    const told = new Map(testMatings.matings.map((one) => [one.partner?.tag, one]));
    const close = (value: number) => expect.closeTo(value, 9) as number;
    expect(told.get('Q-2')).toMatchObject({ showing: close(1 / 2), fryNeeded: 5, notKnown: null });
    // Half of the young are albino, be it on record as a genotype or only as a look.
    expect(told.get('Q-3')).toMatchObject({ showing: close(1 / 4), fryNeeded: 11, notKnown: null });
    expect(told.get('Q-4')).toMatchObject({ showing: close(1 / 4), fryNeeded: 11 });
    expect(told.get('Q-3')?.bits).toBeCloseTo(told.get('Q-4')?.bits ?? 0, 12);
    expect(told.get('Q-5')).toMatchObject({ bits: null, showing: null, fryNeeded: null });
    expect(told.get('Q-5')?.notKnown).toMatch(/Record the partner's genotype at albino/);
    expect(testMatings.notKnownCount).toBe(1);
    expect(testMatings.assumed).toEqual([]);
  });

  it('keeps a look at fry too young to tell, and does not count it', async () => {
    const fry = await records.fish('Y-1', 'MALE', { hatchDate: '2026-04-20' });
    await records.seen(fry, 'dt', 'double');
    const { fish } = await api.graphql<{
      fish: { phenotypesSeen: { ageDays: number; setAside: string; name: string }[] };
    }>(`query ($id: ID!) { fish(id: $id) { phenotypesSeen { ageDays setAside name } } }`, {
      id: fry,
    });
    expect(fish.phenotypesSeen).toEqual([
      {
        ageDays: 11,
        name: 'double tail',
        setAside: expect.stringMatching(/is visible from 56 days/),
      },
    ]);
    expect(await records.chances(fry, 'dt')).toEqual({});
  });

  it('explains records that cannot all be true, and what would settle it', async () => {
    const a = await records.fish('S-1', 'MALE');
    const b = await records.fish('S-2', 'FEMALE');
    const spawn = await records.spawn('S26-01', a, b);
    const [green] = await records.young(spawn, 1);
    await records.setting({ locusId: 'bl', misScoring: 0 });
    await records.seen(a, 'bl', 'steel');
    await records.seen(b, 'bl', 'steel');
    await records.seen(green?.id ?? '', 'bl', 'turquoise');
    const { contradictions } = await api.graphql<{
      contradictions: {
        found: {
          locusId: string;
          smallest: boolean;
          records: { text: string; remedy: string; fish: { tag: string } }[];
          parentages: { young: { tag: string } }[];
        }[];
      };
    }>(
      `query ($fishId: ID) { contradictions(fishId: $fishId) { found { locusId smallest
         records { text remedy fish { tag } } parentages { young { tag } } } } }`,
      { fishId: green?.id },
    );
    const [clash] = contradictions.found;
    // One steel parent is enough: a turquoise has a turquoise allele from each parent.
    expect(clash?.records).toHaveLength(2);
    expect(clash?.smallest).toBe(true);
    expect(clash?.records.map((one) => one.fish.tag)).toContain('S26-01-01');
    expect(clash?.records[0]?.remedy).toMatch(/Look at/);
    expect(clash?.parentages[0]?.young.tag).toBe('S26-01-01');
    const { fishCarriers } = await api.graphql<{
      fishCarriers: { loci: { locusId: string; impossible: string | null }[] };
    }>(`query ($id: ID!) { fishCarriers(fishId: $id) { loci { locusId impossible } } }`, {
      id: green?.id,
    });
    expect(fishCarriers.loci.find((one) => one.locusId === 'bl')?.impossible).toMatch(
      /cannot all be true/,
    );
  });

  it('spells out a genotype known in part by allele frequencies, and says so', async () => {
    await records.setting({
      locusId: 'c',
      frequencies: [
        { alleleId: 'C', frequency: 0.5 },
        { alleleId: 'c', frequency: 0.5 },
      ],
    });
    const { cross } = await api.graphql<{
      cross: { assumed: string[]; classes: { phenotype: string; probability: number }[] };
    }>(
      `query ($input: CrossInput!) { cross(input: $input) { assumed classes { phenotype probability } } }`,
      {
        input: {
          sire: [{ locusId: 'c', genotype: 'C/-' }],
          dam: [{ locusId: 'c', genotype: 'c/c' }],
        },
      },
    );
    // C/C 1/3 gives none, C/c 2/3 gives half: one third cambodian.
    expect(cross.classes.find((one) => one.phenotype === 'cambodian')?.probability).toBeCloseTo(
      1 / 3,
      9,
    );
    expect(cross.assumed.join()).toMatch(/known in part/);
  });

  const bad: [string, string, string, object, string][] = [
    [
      'an unknown locus',
      'recordPhenotype',
      'RecordPhenotypeInput',
      { locusId: 'zz', phenotype: 'single' },
      'LOCUS_UNKNOWN',
    ],
    [
      'an unknown phenotype',
      'recordPhenotype',
      'RecordPhenotypeInput',
      { locusId: 'dt', phenotype: 'triple' },
      'PHENOTYPE_UNKNOWN',
    ],
    [
      'an unknown allele',
      'recordGenotype',
      'RecordGenotypeInput',
      { locusId: 'dt', genotype: 'Dt/x', basis: 'ASSUMED' },
      'ALLELE_UNKNOWN',
    ],
    [
      'an impossible genotype',
      'recordGenotype',
      'RecordGenotypeInput',
      { locusId: 'dt', genotype: 'Dt', basis: 'ASSUMED' },
      'GENOTYPE_INVALID',
    ],
    [
      'a frequency out of range',
      'setLocusSetting',
      'SetLocusSettingInput',
      {
        locusId: 'dt',
        frequencies: [
          { alleleId: 'Dt', frequency: 1.2 },
          { alleleId: 'dt', frequency: -0.2 },
        ],
      },
      'PROBABILITY_OUT_OF_RANGE',
    ],
    [
      'frequencies that do not sum to 1',
      'setLocusSetting',
      'SetLocusSettingInput',
      {
        locusId: 'dt',
        frequencies: [
          { alleleId: 'Dt', frequency: 0.5 },
          { alleleId: 'dt', frequency: 0.4 },
        ],
      },
      'PROBABILITIES_NOT_ONE',
    ],
    [
      'a mis-scoring of 2',
      'setLocusSetting',
      'SetLocusSettingInput',
      { locusId: 'dt', misScoring: 2 },
      'PROBABILITY_OUT_OF_RANGE',
    ],
    [
      'a count below nothing',
      'recordClassCount',
      'ClassCountInput',
      { locusIds: ['dt'], phenotype: 'single tail', number: -1, countedOn: '2026-05-01' },
      'VALIDATION',
    ],
  ];
  it.each(bad)('refuses %s', async (_what, mutation, type, input, code) => {
    const about = {
      recordPhenotype: { fishId: sire, seenOn: '2026-05-01' },
      recordGenotype: { fishId: sire },
      setLocusSetting: {},
      recordClassCount: { spawnId },
    }[mutation];
    const { errors } = await api.send(
      `mutation ($input: ${type}!) { ${mutation}(input: $input) { id } }`,
      { input: { ...about, ...input } },
    );
    expect(errors?.[0]?.extensions.code).toBe(code);
  });

  it('refuses a look before the fish hatched, a fish that is not there and too many fry', async () => {
    const fry = await records.fish('Y-2', 'MALE', { hatchDate: '2026-06-01' });
    await expect(records.seen(fry, 'dt', 'double')).rejects.toThrow(/had not hatched/);
    await expect(records.chances('00000000-0000-4000-8000-000000000000', 'dt')).rejects.toThrow(
      /NOT_FOUND/,
    );
    const { errors } = await api.send(PAIR, { sireId: sire, damId: dam, broodSize: 0 });
    expect(errors?.[0]?.extensions.code).toBe('VALIDATION');
  });
});
