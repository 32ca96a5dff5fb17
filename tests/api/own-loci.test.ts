import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { mottled } from '../mottled-locus.js';
import { creation, newRecords } from '../new-records.js';

const DEFINE = creation(
  'defineLocus',
  'id own version recordId revision phenotypes { genotype phenotype }',
);
const REVISE = `mutation ($input: ReviseLocusInput!) { reviseLocus(input: $input) { id name version revision } }`;

const mottle = {
  ...mottled,
  looks: [
    mottled.looks[0],
    { genotype: 'mo/mo', phenotype: 'mottled', share: '9/10' },
    { genotype: 'mo/mo', phenotype: 'plain', share: '1/10' },
  ],
  scorableFromDays: 42,
};

interface Made {
  id: string;
  version: number;
  recordId: string;
  revision: number;
  own: boolean;
}

describe("loci of the person's own", () => {
  let api: RunningApi;
  let records: Records;
  let made: Made;

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    ({ defineLocus: made } = await api.graphql<{ defineLocus: Made }>(DEFINE, { input: mottle }));
  });
  afterAll(() => api.close());

  const code = async (query: string, variables: object): Promise<string | undefined> =>
    (await api.send(query, variables)).errors?.[0]?.extensions.code;

  it('stand beside the catalogue', async () => {
    expect(made).toMatchObject({ id: 'mottle', own: true, version: 1, revision: 1 });
    const { loci } = await api.graphql<{ loci: { id: string; own: boolean }[] }>(
      '{ loci { id own confidence dominance sources } }',
    );
    // The person's own claim, not breeders' practice; dominance follows from the looks.
    expect(loci.at(-1)).toEqual({
      id: 'mottle',
      own: true,
      confidence: 'own',
      dominance: 'variable',
      sources: [],
    });
  });

  it('are accepted wherever a locus is: genotypes, looks, counts, losses, crosses, carriers', async () => {
    const sire = await records.fish('G-1', 'MALE');
    const dam = await records.fish('G-2', 'FEMALE');
    const spawn = await records.spawn('G26-01', sire, dam);
    const record = (locusId: string, fishId: string) =>
      newRecords(api).recordGenotype({ fishId, locusId, genotype: 'Mo/mo', basis: 'TEST_MATING' });
    await record('mottle', sire);
    await record('mottle', dam);
    await records.counted(spawn, 'mottle', { plain: 30, mottled: 10 });
    await newRecords(api).recordSpawnLoss({
      spawnId: spawn,
      kind: 'CULLED',
      on: '2026-04-01',
      number: 2,
      reason: 'mottle',
      heritable: true,
      locusId: 'mottle',
      phenotype: 'mottled',
    });
    const { spawnExpectation } = await api.graphql<{
      spawnExpectation: { classes: { phenotype: string; fraction: string }[] };
    }>(`query ($id: ID!) { spawnExpectation(spawnId: $id) { classes { phenotype fraction } } }`, {
      id: spawn,
    });
    // A quarter mo/mo, nine in ten of which show it.
    expect(spawnExpectation.classes).toEqual([
      { phenotype: 'plain', fraction: '31/40' },
      { phenotype: 'mottled', fraction: '9/40' },
    ]);
    const [young] = await records.young(spawn, 1);
    await records.seen(young?.id ?? '', 'mottle', 'plain');
    const chances = await records.chances(young?.id ?? '', 'mottle');
    // 1/4, 1/2 and 1/40 of the brood are plain, each read rightly 99 times in 100.
    const plain = [0.25 * 0.99, 0.5 * 0.99, 0.25 * (0.1 * 0.99 + 0.9 * 0.01)];
    const sum = plain.reduce((a, b) => a + b, 0);
    expect(chances['mo/mo']).toBeCloseTo((plain[2] ?? 0) / sum, 9);
  });

  it('are revised into versions that stay readable, and keep what records use', async () => {
    const { reviseLocus } = await api.graphql<{ reviseLocus: Made & { name: string } }>(REVISE, {
      input: { id: made.recordId, revision: 1, name: 'Mottle on the body' },
    });
    expect(reviseLocus).toMatchObject({ name: 'Mottle on the body', version: 2, revision: 2 });
    const { locusVersions } = await api.graphql<{
      locusVersions: { version: number; by: string; locus: { name: string } }[];
    }>(`{ locusVersions(locusId: "mottle") { version by locus { name } } }`);
    expect(locusVersions.map((one) => [one.version, one.locus.name])).toEqual([
      [2, 'Mottle on the body'],
      [1, 'Mottle'],
    ]);
    const without = {
      id: made.recordId,
      revision: 2,
      alleles: [
        { symbol: 'A', name: 'plain' },
        { symbol: 'a', name: 'mottled' },
      ],
      looks: [
        { genotype: 'A/-', phenotype: 'plain' },
        { genotype: 'a/a', phenotype: 'mottled' },
      ],
    };
    expect(await code(REVISE, { input: without })).toMatch(/LOCUS_ALLELE_IN_USE|ALLELE_UNKNOWN/);
    expect(await code(REVISE, { input: { id: made.recordId, revision: 1, name: 'x' } })).toBe(
      'CONFLICT_REVISION',
    );
  });

  it('withdrawn, they are refused with a code, and what used them says so', async () => {
    const sire = await records.fish('W-1', 'MALE');
    await records.seen(sire, 'mottle', 'mottled');
    await api.graphql(
      `mutation ($input: WithdrawInput!) { withdrawLocus(input: $input) { isWithdrawn } }`,
      {
        input: { id: made.recordId, reason: 'two loci after all' },
      },
    );
    await expect(records.seen(sire, 'mottle', 'mottled')).rejects.toThrow(/LOCUS_WITHDRAWN/);
    const { fishCarriers } = await api.graphql<{
      fishCarriers: { loci: unknown[]; leftOut: { locusId: string; code: string }[] };
    }>(
      `query ($id: ID!) { fishCarriers(fishId: $id) { loci { locusId } leftOut { locusId code } } }`,
      { id: sire },
    );
    expect(fishCarriers.loci).toEqual([]);
    expect(fishCarriers.leftOut).toContainEqual({ locusId: 'mottle', code: 'LOCUS_WITHDRAWN' });
    expect(
      await code(`query ($input: CrossInput!) { cross(input: $input) { locusIds } }`, {
        input: {
          sire: [{ locusId: 'mottle', genotype: 'Mo/mo' }],
          dam: [{ locusId: 'mottle', genotype: 'mo/mo' }],
        },
      }),
    ).toBe('LOCUS_WITHDRAWN');
    await api.graphql(`mutation ($id: ID!) { restoreLocus(id: $id) { isWithdrawn } }`, {
      id: made.recordId,
    });
    await records.seen(sire, 'mottle', 'mottled');
  });

  it('are refused when they cannot be: all problems at once', async () => {
    const odd = { ...mottle, locusId: 'odd' };
    expect(await code(DEFINE, { input: { ...odd, locusId: 'dt' } })).toBe('VALIDATION');
    expect(await code(DEFINE, { input: { ...odd, locusId: 'Not So Short' } })).toBe('VALIDATION');
    expect(await code(DEFINE, { input: { ...odd, locusId: 'mottle' } })).toBe('TAG_TAKEN');
    expect(
      await code(DEFINE, {
        input: { ...odd, looks: [{ genotype: 'mo/mo', phenotype: 'mottled' }] },
      }),
    ).toBe('LOCUS_INVALID');
    const shares = [
      ...mottle.looks.slice(0, 2),
      { genotype: 'mo/mo', phenotype: 'plain', share: '1/2' },
    ];
    expect(await code(DEFINE, { input: { ...odd, looks: shares } })).toBe('LOCUS_INVALID');
  });

  it('are written once when sent twice', async () => {
    const id = '6f1a2b34-0000-4000-8000-000000000001';
    const input = { ...mottle, locusId: 'twice', id };
    await api.graphql(DEFINE, { input });
    await api.graphql(DEFINE, { input });
    const { loci } = await api.graphql<{ loci: { id: string }[] }>('{ loci { id } }');
    expect(loci.filter((one) => one.id === 'twice')).toHaveLength(1);
  });

  it('genotypes in another notation are kept in the symbols used here', async () => {
    const fish = await records.fish('N-1', 'MALE');
    const { recordGenotype } = await api.graphql<{ recordGenotype: { genotype: string } }>(
      creation('recordGenotype', 'genotype'),
      {
        input: {
          fishId: fish,
          locusId: 'bl',
          genotype: 'V/v',
          notation: 'wallbrunn',
          basis: 'ASSUMED',
        },
      },
    );
    expect(recordGenotype.genotype).toBe('Bl/bl');
  });
});
