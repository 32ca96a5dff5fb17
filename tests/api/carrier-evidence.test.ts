import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { newRecords } from '../new-records.js';

/** What counts as evidence, and what an answer depends on. */
describe('the evidence behind carrier probabilities', () => {
  let api: RunningApi;
  let records: Records;

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    await records.setting({ locusId: 'dt', misScoring: 0 });
  });
  afterAll(() => api.close());

  const genotype = (
    fishId: string,
    text: string,
    basis: 'LABORATORY' | 'ASSUMED' | 'TEST_MATING',
  ) => newRecords(api).recordGenotype({ fishId, locusId: 'dt', genotype: text, basis });

  it('a young fish with a laboratory test is taken out of the count of its brood', async () => {
    const sire = await records.fish('P-1', 'MALE');
    const dam = await records.fish('P-2', 'FEMALE');
    await genotype(dam, 'Dt/dt', 'LABORATORY');
    const spawn = await records.spawn('P26-01', sire, dam);
    const [young] = await records.young(spawn, 1);
    await records.counted(spawn, 'dt', { 'single tail': 4 });
    await genotype(young?.id ?? '', 'Dt/Dt', 'LABORATORY');
    // Three more single tails and a Dt/Dt. Of Dt/Dt by Dt/dt: 1 each, and 1/2; of Dt/dt by Dt/dt: 3/4 each, and 1/4.
    const chances = await records.chances(sire, 'dt');
    const founders = 2;
    const odds = (founders * 0.75 ** 3 * (1 / 4)) / (1 / 2);
    expect((chances['Dt/dt'] ?? 0) / (chances['Dt/Dt'] ?? NaN)).toBeCloseTo(odds, 8);
  });

  it('young of one spawn are full sibs here too though nobody knows their parents, and its count speaks of these', async () => {
    const spawnId = await newRecords(api).createSpawn({ tag: 'N26-01' });
    const [one, other] = await records.young(spawnId, 2);
    const carries = async (): Promise<number> => {
      const chances = await records.chances(other?.id ?? '', 'dt');
      return (chances['Dt/dt'] ?? 0) / ((chances['Dt/Dt'] ?? 0) + (chances['Dt/dt'] ?? 0));
    };
    await records.seen(one?.id ?? '', 'dt', 'double');
    await records.seen(other?.id ?? '', 'dt', 'single');
    // Every pair of parents, both alleles equally common: a double and a single young, and the single one's two genes.
    const founder = [1 / 4, 1 / 2, 1 / 4];
    const young = (s: number, d: number): [number, number, number] => {
      const [a, b] = [s / 2, d / 2];
      return [(1 - a) * (1 - b), a * (1 - b) + b * (1 - a), a * b];
    };
    const expected = (singles: number, doubles: number): number => {
      let [carrier, single] = [0, 0];
      for (const s of [0, 1, 2])
        for (const d of [0, 1, 2]) {
          const [plain, mixed, double] = young(s, d);
          const weight =
            founder[s]! * founder[d]! * double ** (1 + doubles) * (1 - double) ** singles;
          carrier += weight * mixed;
          single += weight * (plain + mixed);
        }
      return carrier / single;
    };
    expect(await carries()).toBeCloseTo(expected(0, 0), 8);
    // As fish without kin they would be 2/3.
    expect(expected(0, 0)).toBeGreaterThan(0.68);
    // Counted with the two on record: ten more single tails and two more double.
    await records.counted(spawnId, 'dt', { 'single tail': 11, 'double tail': 3 });
    expect(expected(10, 2)).not.toBeCloseTo(expected(0, 0), 3);
    expect(await carries()).toBeCloseTo(expected(10, 2), 8);
  });

  it('a corrected day of hatching makes a count too early to be told, at once', async () => {
    const sire = await records.fish('E-1', 'MALE');
    const dam = await records.fish('E-2', 'FEMALE');
    const spawn = await records.spawn('E26-01', sire, dam, { hatchDate: '2026-01-01' });
    await records.counted(spawn, 'dt', { 'single tail': 30, 'double tail': 10 });
    expect((await records.chances(sire, 'dt'))['Dt/dt']).toBeGreaterThan(0.99);
    const { spawn: standing } = await api.graphql<{ spawn: { revision: number } }>(
      `query ($id: ID!) { spawn(id: $id) { revision } }`,
      { id: spawn },
    );
    await api.graphql(
      `mutation ($input: CorrectSpawnInput!) { correctSpawn(input: $input) { id } }`,
      {
        input: { id: spawn, revision: standing.revision, hatchDate: '2026-04-20' },
      },
    );
    // Counted at eleven days: kept, but it says nothing.
    expect((await records.chances(sire, 'dt'))['Dt/dt'] ?? 0.5).toBeCloseTo(0.5, 9);
  });

  it('a clash that rests on a founder frequency of 0 says so', async () => {
    const line = await records.line('Z');
    await records.setting({
      locusId: 'dt',
      lineId: line,
      misScoring: 0,
      frequencies: [
        { alleleId: 'Dt', frequency: 1 },
        { alleleId: 'dt', frequency: 0 },
      ],
    });
    const fish = await records.fish('Z-1', 'MALE', { lineId: line });
    await records.seen(fish, 'dt', 'double');
    const { contradictions } = await api.graphql<{
      contradictions: { found: { restsOnFounders: boolean; records: { text: string }[] }[] };
    }>(
      `query ($fishId: ID) { contradictions(fishId: $fishId) { found { restsOnFounders records { text } } } }`,
      { fishId: fish },
    );
    expect(contradictions.found).toHaveLength(1);
    expect(contradictions.found[0]).toMatchObject({ restsOnFounders: true });
    expect(contradictions.found[0]?.records).toHaveLength(1);
  });

  it('a fish on record is never of a lethal genotype', async () => {
    await newRecords(api).defineLocus({
      locusId: 'shade',
      name: 'Shade',
      alleles: [
        { symbol: 'Sh', name: 'shaded' },
        { symbol: 'sh', name: 'plain' },
      ],
      looks: [
        { genotype: 'Sh/Sh', phenotype: 'shaded', survival: '0' },
        { genotype: 'Sh/-', phenotype: 'shaded' },
        { genotype: 'sh/sh', phenotype: 'plain' },
      ],
    });
    const founder = await records.fish('L-1', 'MALE');
    await records.seen(founder, 'shade', 'shaded');
    const chances = await records.chances(founder, 'shade');
    expect(chances['Sh/Sh']).toBeUndefined();
    expect(chances['Sh/sh']).toBeGreaterThan(0.97);
  });

  it('survival is of the line whose look it is: an earlier line is not taken in by a later one', async () => {
    await newRecords(api).defineLocus({
      locusId: 'frail',
      name: 'Frail',
      alleles: [
        { symbol: 'Fr', name: 'frail' },
        { symbol: 'fr', name: 'plain' },
      ],
      looks: [
        { genotype: 'Fr/Fr', phenotype: 'dark' },
        { genotype: 'Fr/-', phenotype: 'grey', survival: '1/2' },
        { genotype: '-/-', phenotype: 'plain' },
      ],
    });
    const { cross } = await api.graphql<{
      cross: { lostFraction: string; classes: { phenotype: string; fraction: string }[] };
    }>(
      `query ($input: CrossInput!) { cross(input: $input) { lostFraction classes { phenotype fraction } } }`,
      {
        input: {
          sire: [{ locusId: 'frail', genotype: 'Fr/fr' }],
          dam: [{ locusId: 'frail', genotype: 'Fr/fr' }],
        },
      },
    );
    // Of 1 : 2 : 1 the middle class is halved: a quarter of the eggs is lost, the rest are thirds.
    expect(cross.lostFraction).toBe('1/4');
    expect(cross.classes.map((one) => one.fraction)).toEqual(['1/3', '1/3', '1/3']);
  });
});
