import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';

const DEFINE = `mutation ($input: DefineLocusInput!) { defineLocus(input: $input) {
  id own version recordId revision phenotypes { genotype phenotype } } }`;
const REVISE = `mutation ($input: ReviseLocusInput!) { reviseLocus(input: $input) { id name version revision } }`;

const glow = {
  locusId: 'glow',
  name: 'Glow',
  alleles: [
    { symbol: 'Gl', name: 'plain' },
    { symbol: 'gl', name: 'glowing' },
  ],
  looks: [
    { genotype: 'Gl/-', phenotype: 'plain' },
    { genotype: 'gl/gl', phenotype: 'glowing', share: '9/10' },
    { genotype: 'gl/gl', phenotype: 'plain', share: '1/10' },
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

describe("loci of the keeper's own", () => {
  let api: RunningApi;
  let records: Records;
  let made: Made;

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    ({ defineLocus: made } = await api.graphql<{ defineLocus: Made }>(DEFINE, { input: glow }));
  });
  afterAll(() => api.close());

  const code = async (query: string, variables: object): Promise<string | undefined> =>
    (await api.send(query, variables)).errors?.[0]?.extensions.code;

  it('stand beside the catalogue', async () => {
    expect(made).toMatchObject({ id: 'glow', own: true, version: 1, revision: 1 });
    const { loci } = await api.graphql<{ loci: { id: string; own: boolean }[] }>(
      '{ loci { id own confidence dominance sources } }',
    );
    // The keeper's own claim, not breeders' practice; dominance follows from the looks.
    expect(loci.at(-1)).toEqual({
      id: 'glow',
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
      api.graphql(
        `mutation ($input: RecordGenotypeInput!) { recordGenotype(input: $input) { id } }`,
        {
          input: { fishId, locusId, genotype: 'Gl/gl', basis: 'TEST_MATING' },
        },
      );
    await record('glow', sire);
    await record('glow', dam);
    await records.counted(spawn, 'glow', { plain: 30, glowing: 10 });
    await api.graphql(
      `mutation ($input: SpawnLossInput!) { recordSpawnLoss(input: $input) { id } }`,
      {
        input: {
          spawnId: spawn,
          kind: 'CULLED',
          on: '2026-04-01',
          number: 2,
          reason: 'glow',
          heritable: true,
          locusId: 'glow',
          phenotype: 'glowing',
        },
      },
    );
    const { spawnExpectation } = await api.graphql<{
      spawnExpectation: { classes: { phenotype: string; fraction: string }[] };
    }>(`query ($id: ID!) { spawnExpectation(spawnId: $id) { classes { phenotype fraction } } }`, {
      id: spawn,
    });
    // A quarter gl/gl, nine in ten of which show it.
    expect(spawnExpectation.classes).toEqual([
      { phenotype: 'plain', fraction: '31/40' },
      { phenotype: 'glowing', fraction: '9/40' },
    ]);
    const [young] = await records.young(spawn, 1);
    await records.seen(young?.id ?? '', 'glow', 'plain');
    const chances = await records.chances(young?.id ?? '', 'glow');
    // 1/4, 1/2 and 1/40 of the brood are plain, each read rightly 99 times in 100.
    const plain = [0.25 * 0.99, 0.5 * 0.99, 0.25 * (0.1 * 0.99 + 0.9 * 0.01)];
    const sum = plain.reduce((a, b) => a + b, 0);
    expect(chances['gl/gl']).toBeCloseTo((plain[2] ?? 0) / sum, 9);
  });

  it('are revised into versions that stay readable, and keep what records use', async () => {
    const { reviseLocus } = await api.graphql<{ reviseLocus: Made & { name: string } }>(REVISE, {
      input: { id: made.recordId, revision: 1, name: 'Glow in the dark' },
    });
    expect(reviseLocus).toMatchObject({ name: 'Glow in the dark', version: 2, revision: 2 });
    const { locusVersions } = await api.graphql<{
      locusVersions: { version: number; by: string; locus: { name: string } }[];
    }>(`{ locusVersions(locusId: "glow") { version by locus { name } } }`);
    expect(locusVersions.map((one) => [one.version, one.locus.name])).toEqual([
      [2, 'Glow in the dark'],
      [1, 'Glow'],
    ]);
    const without = {
      id: made.recordId,
      revision: 2,
      alleles: [
        { symbol: 'A', name: 'plain' },
        { symbol: 'a', name: 'glowing' },
      ],
      looks: [
        { genotype: 'A/-', phenotype: 'plain' },
        { genotype: 'a/a', phenotype: 'glowing' },
      ],
    };
    expect(await code(REVISE, { input: without })).toMatch(/LOCUS_ALLELE_IN_USE|ALLELE_UNKNOWN/);
    expect(await code(REVISE, { input: { id: made.recordId, revision: 1, name: 'x' } })).toBe(
      'CONFLICT_REVISION',
    );
  });

  it('withdrawn, they are refused with a code, and what used them says so', async () => {
    const sire = await records.fish('W-1', 'MALE');
    await records.seen(sire, 'glow', 'glowing');
    await api.graphql(
      `mutation ($input: WithdrawInput!) { withdrawLocus(input: $input) { isWithdrawn } }`,
      {
        input: { id: made.recordId, reason: 'two loci after all' },
      },
    );
    await expect(records.seen(sire, 'glow', 'glowing')).rejects.toThrow(/LOCUS_WITHDRAWN/);
    const { fishCarriers } = await api.graphql<{
      fishCarriers: { loci: unknown[]; leftOut: { locusId: string; code: string }[] };
    }>(
      `query ($id: ID!) { fishCarriers(fishId: $id) { loci { locusId } leftOut { locusId code } } }`,
      { id: sire },
    );
    expect(fishCarriers.loci).toEqual([]);
    expect(fishCarriers.leftOut).toContainEqual({ locusId: 'glow', code: 'LOCUS_WITHDRAWN' });
    expect(
      await code(`query ($input: CrossInput!) { cross(input: $input) { locusIds } }`, {
        input: {
          sire: [{ locusId: 'glow', genotype: 'Gl/gl' }],
          dam: [{ locusId: 'glow', genotype: 'gl/gl' }],
        },
      }),
    ).toBe('LOCUS_WITHDRAWN');
    await api.graphql(`mutation ($id: ID!) { restoreLocus(id: $id) { isWithdrawn } }`, {
      id: made.recordId,
    });
    await records.seen(sire, 'glow', 'glowing');
  });

  it('are refused when they cannot be: all problems at once', async () => {
    const odd = { ...glow, locusId: 'odd' };
    expect(await code(DEFINE, { input: { ...odd, locusId: 'dt' } })).toBe('VALIDATION');
    expect(await code(DEFINE, { input: { ...odd, locusId: 'Not So Short' } })).toBe('VALIDATION');
    expect(await code(DEFINE, { input: { ...odd, locusId: 'glow' } })).toBe('TAG_TAKEN');
    expect(
      await code(DEFINE, {
        input: { ...odd, looks: [{ genotype: 'gl/gl', phenotype: 'glowing' }] },
      }),
    ).toBe('LOCUS_INVALID');
    const shares = [
      ...glow.looks.slice(0, 2),
      { genotype: 'gl/gl', phenotype: 'plain', share: '1/2' },
    ];
    expect(await code(DEFINE, { input: { ...odd, looks: shares } })).toBe('LOCUS_INVALID');
  });

  it('are written once when sent twice', async () => {
    const id = '6f1a2b34-0000-4000-8000-000000000001';
    const input = { ...glow, locusId: 'twice', id };
    await api.graphql(DEFINE, { input });
    await api.graphql(DEFINE, { input });
    const { loci } = await api.graphql<{ loci: { id: string }[] }>('{ loci { id } }');
    expect(loci.filter((one) => one.id === 'twice')).toHaveLength(1);
  });

  it('genotypes in another notation are kept in the symbols used here', async () => {
    const fish = await records.fish('N-1', 'MALE');
    const { recordGenotype } = await api.graphql<{ recordGenotype: { genotype: string } }>(
      `mutation ($input: RecordGenotypeInput!) { recordGenotype(input: $input) { genotype } }`,
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
