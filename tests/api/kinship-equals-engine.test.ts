import {
  coancestry,
  inbreedingCoefficients,
  meanCoancestryBetween,
  meanKinship,
  type FounderRelationship,
} from '@linewright/kinship';
import { buildPedigree, seededChance, type Pedigree } from '@linewright/pedigree';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';
import { newRecords } from '../new-records.js';

/** Repeatable: which random stocks are looked at must not change from run to run. */
const randomFrom = (seed: number) => {
  const chance = seededChance(seed);
  return (below: number): number => Math.floor(chance() * below);
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
  /** Whether something behind a fish is of unknown origin, gone through fish by fish. */
  open: (id: string) => boolean;
}

/**
 * The same stock told the other way: young of a spawn of which neither parent is known are founders, each pair of them with the
 * coancestry of full sibs, 1/4.
 */
const relatedFounders = (fish: readonly Told[]) => {
  const unknown = (one: Told) => one.sire?.startsWith('sire of') && one.dam?.startsWith('dam of');
  const rows = fish.map((one) => (unknown(one) ? { id: one.id } : one));
  const halfKnown = fish
    .filter((one) => !unknown(one))
    .flatMap(({ sire, dam }) => [sire, dam].filter((id) => id?.includes(' of ')));
  const pedigree = buildPedigree([...[...new Set(halfKnown)].map((id) => ({ id: id! })), ...rows]);
  const sibs = fish.filter(unknown);
  const founders: FounderRelationship = {
    founders: sibs.map(({ id }) => pedigree.indexOf(id)),
    coancestry: sibs.flatMap((a) =>
      sibs.map((b) => (a === b ? 0.5 : a.sire === b.sire ? 0.25 : 0)),
    ),
  };
  return { pedigree, founders, pairsOfSibs: sibs.length };
};

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
    const declared = new Set<string>();
    const sexes = ['MALE', 'FEMALE'] as const;
    const pick = (sex: Told['sex']): string => {
      const some = fish.filter((one) => one.sex === sex);
      return some[random(some.length)]!.id;
    };
    for (let k = 0; k < 4; k++) {
      const sex = sexes[k % 2]!;
      const tag = `K${seed}-F${k}`;
      const declaredUnrelated = k < 2 || random(2) === 0;
      const input = { tag, sex, disposition: 'KEEPER', lineId, declaredUnrelated };
      const id = await made('createFish', 'CreateFishInput', input);
      if (declaredUnrelated) declared.add(id);
      fish.push({ id, sex, sire: null, dam: null });
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
        const [youngId] = await newRecords(api).addFishToSpawn({
          spawnId,
          sex,
          disposition: 'KEEPER',
        });
        fish.push({ id: youngId!, sex, sire, dam });
      }
    };
    await brood('bought', 3, {});
    await brood('bag', 2, {}, true);
    await brood('sire known', 3, { sireId: pick('MALE') });
    await brood('dam known', 2, { damId: pick('FEMALE') });
    await brood('mixed by one sire', 2, { sireId: pick('MALE') }, true);
    await brood('alone', 1, {});
    await brood('of the known', 2, { sireId: fish[0]!.id, damId: fish[1]!.id });
    const bought = fish.filter(({ sire }) => sire === 'sire of bought');
    await brood('of sibs', 3, { sireId: bought[0]!.id, damId: bought[1]!.id });
    for (let k = 0; k < 5; k++) {
      await brood(`S${k}`, 2 + random(2), { sireId: pick('MALE'), damId: pick('FEMALE') });
    }
    const pedigree = buildPedigree([...[...hidden].map((id) => ({ id })), ...fish]);
    const parentsOf = new Map(fish.map(({ id, sire, dam }) => [id, [sire, dam]]));
    const open = (id: string): boolean =>
      parentsOf.get(id)?.some((parent) => (parent === null ? !declared.has(id) : open(parent))) ??
      true;
    return { lineId, fish, pedigree, f: inbreedingCoefficients(pedigree), open };
  };

  it.each([1, 2, 3])(
    'in list, pair page, next pairing, line health and map, stock %i',
    async (seed) => {
      const { lineId, fish, pedigree, f, open } = await stockOf(seed);
      const at = (id: string): number => pedigree.indexOf(id);
      const kin = (a: string, b: string): number => coancestry(pedigree, at(a), at(b));
      expect(f.filter((value) => value > 0).length).toBeGreaterThan(1);
      expect(new Set(fish.map(({ id }) => open(id))).size).toBe(2);
      const other = relatedFounders(fish);
      expect(other.pairsOfSibs).toBeGreaterThan(2);
      const asRelated = (a: string, b: string): number =>
        coancestry(other.pedigree, other.pedigree.indexOf(a), other.pedigree.indexOf(b), {
          founders: other.founders,
        });
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
            node: {
              sire: { id: string };
              dam: { id: string };
              inbreedingCoefficient: number;
              inbreedingBasis: string;
              discouraged: boolean;
              warnings: { code: string; text: string }[];
              reasons: { code: string; text: string }[];
            };
          }[];
        };
      }>(
        `query ($lineIds: [ID!]) { pairingCandidates(first: 200, input: {lineIds: $lineIds, includeDiscouraged: true}) {
        edges { node { sire { id } dam { id } inbreedingCoefficient inbreedingBasis discouraged warnings { code text }
          reasons { code text } mainAncestors { ancestor { tag } contribution } } } } }`,
        { lineIds: [lineId] },
      );
      expect(pairingCandidates.edges).toHaveLength(Math.min(200, pairs.length));
      for (const { node } of pairingCandidates.edges) {
        expect(node.inbreedingCoefficient).toBeCloseTo(kin(node.sire.id, node.dam.id), digits);
        expect(node.inbreedingCoefficient).toBeCloseTo(
          asRelated(node.sire.id, node.dam.id),
          digits,
        );
        // Said as the least that it can be exactly where something behind the two is of unknown origin.
        const least = open(node.sire.id) || open(node.dam.id);
        expect(node.inbreedingBasis).toBe(least ? 'AT_LEAST' : 'KNOWN');
        expect(node.reasons[0]?.text.includes('is at least')).toBe(least);
        expect(node.reasons.some(({ code }) => code === 'UNKNOWN_ANCESTRY')).toBe(least);
        if (!least) expect(node.warnings.map(({ code }) => code)).not.toContain('UNKNOWN_ANCESTRY');
      }
      // The list is in the order of the very figures that its rows tell.
      const free = pairingCandidates.edges.filter(({ node }) => !node.discouraged);
      expect(pairingCandidates.edges.slice(0, free.length)).toEqual(free);
      const found = free.map(({ node }) => node.inbreedingCoefficient);
      found.slice(1).forEach((each, k) => expect(each).toBeGreaterThanOrEqual(found[k]! - 1e-9));
      expect(pairingCandidates.edges.some(({ node }) => node.inbreedingBasis === 'KNOWN')).toBe(
        true,
      );

      const { lineHealth } = await api.graphql<{
        lineHealth: {
          figures: {
            inbreeding: { value: number };
            maleByFemale: { value: number };
            meanKinship: { value: number };
            kinship: { fish: { id: string }; meanKinship: number; inbreedingCoefficient: number }[];
            byGeneration: { count: number; notKnownCount: number; mean: number }[];
          };
        };
      }>(
        `query ($lineId: ID!) { lineHealth(lineId: $lineId) { figures { inbreeding { value } maleByFemale { value }
        meanKinship { value } founders { fish { tag } }
        byGeneration { count notKnownCount mean } kinship { fish { id } meanKinship inbreedingCoefficient } } } }`,
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
      const sumOf = (values: readonly number[]): number => values.reduce((sum, x) => sum + x, 0);
      expect(sumOf(figures.byGeneration.map(({ count }) => count))).toBe(fish.length);
      expect(sumOf(figures.byGeneration.map(({ notKnownCount }) => notKnownCount))).toBe(
        ids.filter(open).length,
      );
      expect(sumOf(figures.byGeneration.map(({ count, mean: of }) => count * of))).toBeCloseTo(
        sumOf(indices.map((i) => f[i]!)),
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

      // A line apart, that looks for new blood among these.
      const ownLine = await made('createLine', 'CreateLineInput', {
        code: `L${seed}`,
        name: 'own',
      });
      const moved = [males.at(-1)!, females.at(-1)!, females.at(-2)!];
      const own: string[] = [];
      const sireId = moved[0]!;
      for (const [k, damId] of moved.slice(1).entries()) {
        const tag = `L${seed}-${k}`;
        const spawnId = await made('createSpawn', 'CreateSpawnInput', {
          tag,
          sireId,
          damId,
          lineId: ownLine,
        });
        for (const sex of ['MALE', 'FEMALE'] as const) {
          const [youngId] = await newRecords(api).addFishToSpawn({
            spawnId,
            sex,
            disposition: 'KEEPER',
          });
          own.push(youngId!);
        }
      }
      const wider = buildPedigree([
        ...pedigree.ids.filter((id) => id.includes(' of ')).map((id) => ({ id })),
        ...fish,
        ...own.map((id, k) => ({ id, sire: sireId, dam: moved[k < 2 ? 1 : 2]! })),
      ]);
      const openOwn = [sireId, moved[1]!, moved[2]!].some(open);
      const { outcrosses } = await api.graphql<{
        outcrosses: {
          fish: { id: string };
          meanCoancestry: number;
          basis: string;
          reasons: { code: string; text: string; figure: number | null }[];
        }[];
      }>(
        'query ($input: OutcrossInput!) { outcrosses(input: $input) { fish { id } meanCoancestry basis reasons { code text figure } } }',
        { input: { lineId: ownLine, first: 100 } },
      );
      expect(outcrosses.length).toBeGreaterThanOrEqual(fish.length);
      for (const one of outcrosses) {
        if (!ids.includes(one.fish.id)) continue;
        const withLine = (id: string): number =>
          coancestry(wider, wider.indexOf(one.fish.id), wider.indexOf(id));
        expect(one.meanCoancestry).toBeCloseTo(mean(own.map(withLine)), digits);
        const least = openOwn || open(one.fish.id);
        expect(one.basis).toBe(least ? 'AT_LEAST' : 'KNOWN');
        const mates = own.filter((_, k) => (k % 2 === 0) !== males.includes(one.fish.id));
        const first = one.reasons.find(({ code }) => code === 'FIRST_CROSS');
        expect(first?.figure).toBeCloseTo(mean(mates.map(withLine)), digits);
        expect(first?.text.includes('averages at least')).toBe(least);
      }
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
