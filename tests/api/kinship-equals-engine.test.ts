import {
  coancestry,
  inbreedingCoefficients,
  meanCoancestryBetween,
  meanKinship,
} from '@linewright/kinship';
import { buildPedigree, type Pedigree } from '@linewright/pedigree';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';

/** Small and repeatable: which random stocks are looked at must not change from run to run. */
const randomFrom = (seed: number) => {
  let state = seed >>> 0;
  return (below: number): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
};

interface Told {
  id: string;
  sex: 'MALE' | 'FEMALE';
  sire: string | null;
  dam: string | null;
}

/** A stock as the API was told of it, and the same with every parent written out, unknown ones of a brood by name. */
interface Stock {
  lineId: string;
  fish: Told[];
  pedigree: Pedigree;
  f: Float64Array;
}

const digits = 10;

describe('figures over GraphQL equal the engine on a pedigree written out by hand', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const made = async (field: string, type: string, input: object): Promise<string> =>
    (
      await api.graphql<Record<string, { id: string }>>(
        `mutation ($input: ${type}!) { ${field}(input: $input) { id } }`,
        { input },
      )
    )[field]!.id;

  const stockOf = async (seed: number): Promise<Stock> => {
    const random = randomFrom(seed);
    const lineId = await made('createLine', 'CreateLineInput', { code: `K${seed}`, name: 'kin' });
    const fish: Told[] = [];
    const hidden = new Set<string>();
    const sexes = ['MALE', 'FEMALE'] as const;
    const pick = (sex: Told['sex']): string => {
      const some = fish.filter((one) => one.sex === sex);
      return some[random(some.length)]!.id;
    };
    for (let k = 0; k < 4; k++) {
      const sex = sexes[k % 2]!;
      const tag = `K${seed}-F${k}`;
      const input = { tag, sex, disposition: 'KEEPER', lineId };
      fish.push({
        id: await made('createFish', 'CreateFishInput', input),
        sex,
        sire: null,
        dam: null,
      });
    }
    const brood = async (
      name: string,
      young: number,
      parents: { sireId?: string; damId?: string },
      mixedOrigin = false,
    ) => {
      const tag = `K${seed}-${name}`;
      const spawn = { tag, lineId, mixedOrigin, ...parents };
      const spawnId = await made('createSpawn', 'CreateSpawnInput', spawn);
      const unknown = (role: string): string | null => {
        if (mixedOrigin) return null;
        hidden.add(`${role} of ${name}`);
        return `${role} of ${name}`;
      };
      const [sire, dam] = [parents.sireId ?? unknown('sire'), parents.damId ?? unknown('dam')];
      for (let k = 0; k < young; k++) {
        const sex = sexes[k % 2]!;
        const { addFishToSpawn } = await api.graphql<{ addFishToSpawn: { id: string }[] }>(
          'mutation ($input: AddFishToSpawnInput!) { addFishToSpawn(input: $input) { id } }',
          { input: { spawnId, sex, disposition: 'KEEPER' } },
        );
        fish.push({ id: addFishToSpawn[0]!.id, sex, sire, dam });
      }
    };
    await brood('bought', 3, {});
    await brood('bag', 2, {}, true);
    await brood('sire known', 3, { sireId: pick('MALE') });
    await brood('dam known', 2, { damId: pick('FEMALE') });
    await brood('mixed by one sire', 2, { sireId: pick('MALE') }, true);
    await brood('alone', 1, {});
    const bought = fish.filter(({ sire }) => sire === 'sire of bought');
    await brood('of sibs', 3, { sireId: bought[0]!.id, damId: bought[1]!.id });
    for (let k = 0; k < 5; k++) {
      await brood(`S${k}`, 2 + random(2), { sireId: pick('MALE'), damId: pick('FEMALE') });
    }
    const pedigree = buildPedigree([...[...hidden].map((id) => ({ id })), ...fish]);
    return { lineId, fish, pedigree, f: inbreedingCoefficients(pedigree) };
  };

  it.each([1, 2, 3])(
    'in list, pair page, next pairing, line health and map, stock %i',
    async (seed) => {
      const { lineId, fish, pedigree, f } = await stockOf(seed);
      const at = (id: string): number => pedigree.indexOf(id);
      const kin = (a: string, b: string): number => coancestry(pedigree, at(a), at(b));
      expect(f.filter((value) => value > 0).length).toBeGreaterThan(1);
      const ids = fish.map(({ id }) => id);
      const males = fish.filter(({ sex }) => sex === 'MALE').map(({ id }) => id);
      const females = fish.filter(({ sex }) => sex === 'FEMALE').map(({ id }) => id);

      const { fishList } = await api.graphql<{
        fishList: { edges: { node: { id: string; inbreedingCoefficient: number } }[] };
      }>(
        'query ($lineIds: [ID!]) { fishList(first: 200, filter: {lineIds: $lineIds}) { edges { node { id inbreedingCoefficient } } } }',
        { lineIds: [lineId] },
      );
      expect(fishList.edges).toHaveLength(fish.length);
      for (const { node } of fishList.edges) {
        expect(node.inbreedingCoefficient).toBeCloseTo(f[at(node.id)]!, digits);
      }

      const pairs = males.flatMap((sireId) => females.map((damId) => ({ sireId, damId })));
      for (const { sireId, damId } of pairs.filter((_, k) => k % 5 === 0)) {
        const { plannedBrood } = await api.graphql<{
          plannedBrood: {
            inbreedingCoefficient: number;
            inbreeding: { coefficient: number; paths: { contribution: number }[] };
            slice: { fish: { id: string; inbreedingCoefficient: number }[] };
          };
        }>(
          `query ($sireId: ID!, $damId: ID!) { plannedBrood(sireId: $sireId, damId: $damId) {
          inbreedingCoefficient inbreeding { coefficient paths { contribution ancestor { tag } fish { tag } } }
          slice { fish { id inbreedingCoefficient } } } }`,
          { sireId, damId },
        );
        const expected = kin(sireId, damId);
        expect(plannedBrood.inbreedingCoefficient).toBeCloseTo(expected, digits);
        expect(plannedBrood.inbreeding.coefficient).toBeCloseTo(expected, digits);
        for (const one of plannedBrood.slice.fish) {
          if (!ids.includes(one.id)) continue;
          expect(one.inbreedingCoefficient).toBeCloseTo(f[at(one.id)]!, digits);
        }
      }

      const { pairingCandidates } = await api.graphql<{
        pairingCandidates: {
          edges: {
            node: { sire: { id: string }; dam: { id: string }; inbreedingCoefficient: number };
          }[];
        };
      }>(
        `query ($lineIds: [ID!]) { pairingCandidates(first: 200, input: {lineIds: $lineIds, includeDiscouraged: true}) {
        edges { node { sire { id } dam { id } inbreedingCoefficient mainAncestors { ancestor { tag } contribution } } } } }`,
        { lineIds: [lineId] },
      );
      expect(pairingCandidates.edges).toHaveLength(Math.min(200, pairs.length));
      for (const { node } of pairingCandidates.edges) {
        expect(node.inbreedingCoefficient).toBeCloseTo(kin(node.sire.id, node.dam.id), digits);
      }

      const { lineHealth } = await api.graphql<{
        lineHealth: {
          figures: {
            inbreeding: { value: number };
            maleByFemale: { value: number };
            meanKinship: { value: number };
            kinship: { fish: { id: string }; meanKinship: number; inbreedingCoefficient: number }[];
          };
        };
      }>(
        `query ($lineId: ID!) { lineHealth(lineId: $lineId) { figures { inbreeding { value } maleByFemale { value }
        meanKinship { value } founders { fish { tag } } kinship { fish { id } meanKinship inbreedingCoefficient } } } }`,
        { lineId },
      );
      const { figures } = lineHealth;
      const indices = ids.map(at);
      const means = meanKinship(pedigree, indices);
      const mean = (values: ArrayLike<number>): number =>
        Array.from(values).reduce((sum, value) => sum + value, 0) / values.length;
      expect(figures.inbreeding.value).toBeCloseTo(mean(indices.map((i) => f[i]!)), digits);
      expect(figures.meanKinship.value).toBeCloseTo(mean(means), digits);
      expect(figures.maleByFemale.value).toBeCloseTo(
        meanCoancestryBetween(pedigree, males.map(at), females.map(at))!,
        digits,
      );
      expect(figures.maleByFemale.value).toBeCloseTo(
        mean(pairs.map(({ sireId, damId }) => kin(sireId, damId))),
        digits,
      );
      expect(figures.kinship).toHaveLength(fish.length);
      for (const one of figures.kinship) {
        expect(one.meanKinship).toBeCloseTo(means[ids.indexOf(one.fish.id)]!, digits);
        expect(one.inbreedingCoefficient).toBeCloseTo(f[at(one.fish.id)]!, digits);
      }

      const { relationshipMap } = await api.graphql<{
        relationshipMap: {
          fish: { fish: { id: string }; inbreedingCoefficient: number }[];
          coancestry: number[];
        };
      }>(
        'query ($lineIds: [ID!]) { relationshipMap(lineIds: $lineIds) { fish { fish { id } inbreedingCoefficient } coancestry } }',
        { lineIds: [lineId] },
      );
      expect(relationshipMap.fish).toHaveLength(fish.length);
      let cell = 0;
      relationshipMap.fish.forEach(({ fish: one }, row) => {
        for (let column = 0; column <= row; column++) {
          const other = relationshipMap.fish[column]!.fish;
          expect(relationshipMap.coancestry[cell++]).toBeCloseTo(kin(one.id, other.id), digits);
        }
      });
    },
  );

  it('unknown origin and declared unrelated are told apart', async () => {
    const founder = (tag: string, sex: string, declaredUnrelated: boolean) =>
      made('createFish', 'CreateFishInput', { tag, sex, declaredUnrelated });
    const [a, b, c] = [
      await founder('U-1', 'MALE', true),
      await founder('U-2', 'FEMALE', true),
      await founder('U-3', 'FEMALE', false),
    ];
    const basis = async (sireId: string, damId: string) =>
      (
        await api.graphql<{
          plannedBrood: { inbreedingBasis: string; inbreedingNote: string | null };
        }>(
          'query ($sireId: ID!, $damId: ID!) { plannedBrood(sireId: $sireId, damId: $damId) { inbreedingBasis inbreedingNote } }',
          { sireId, damId },
        )
      ).plannedBrood;
    expect(await basis(a, b)).toEqual({ inbreedingBasis: 'KNOWN', inbreedingNote: null });
    const unknown = await basis(a, c);
    expect(unknown.inbreedingBasis).toBe('AT_LEAST');
    expect(unknown.inbreedingNote).toContain('of U-3.');
    const own = async (id: string) =>
      (
        await api.graphql<{ fish: { inbreedingBasis: string } }>(
          'query ($id: ID!) { fish(id: $id) { inbreedingBasis } }',
          { id },
        )
      ).fish.inbreedingBasis;
    expect([await own(a), await own(c)]).toEqual(['KNOWN', 'UNKNOWN']);
  });

  it('fish already recorded are said to be sibs, and a third joins their spawn', async () => {
    const founder = (tag: string, sex: string) =>
      made('createFish', 'CreateFishInput', { tag, sex });
    const [a, b, c] = [
      await founder('V-1', 'MALE'),
      await founder('V-2', 'FEMALE'),
      await founder('V-3', 'FEMALE'),
    ];
    const sibs = (fishIds: string[]) =>
      api.graphql<{ recordSibs: { id: string; tag: string } }>(
        'mutation ($fishIds: [ID!]!) { recordSibs(fishIds: $fishIds, tag: "V sibs") { id tag } }',
        { fishIds },
      );
    const first = await sibs([a, b]);
    expect(first.recordSibs.tag).toBe('V sibs');
    expect((await sibs([b, c])).recordSibs.id).toBe(first.recordSibs.id);
    for (const damId of [b, c]) {
      const { coancestry: value } = await api.graphql<{ coancestry: number }>(
        'query ($a: ID!, $b: ID!) { coancestry(aId: $a, bId: $b) }',
        { a, b: damId },
      );
      expect(value).toBe(0.25);
    }
  });
});
