import { fishSizePrior, valuesByReml, valuesOverHeritability } from '@linewright/merit';
import { buildPedigree } from '@linewright/pedigree';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

interface Refusal {
  code: string;
  message: string;
  remedy: string;
}
interface Model {
  heritability: {
    mean: number;
    fromPrior: number;
    bands: { probability: number; low: number; high: number }[];
    curve: { heritability: number; probability: number }[];
    prior: { prior: string; source: string | null };
  };
}
interface Merit {
  settings: { revision: number; parts: string[]; prior: string };
  fittedParts: { part: string; fitted: boolean; whyNot: string | null }[];
  counts: { looks: number; fish: number; broods: number; sires: number; dams: number };
  selection: { scored: number; scoredBeforeSorting: number; warning: string | null };
  waiting: { id: string } | null;
  result: {
    shown: string;
    linear: Model | null;
    linearRefusal: Refusal | null;
    reml: { heritability: number; standardError: number | null } | null;
    remlRefusal: Refusal | null;
  } | null;
}

const MERIT = `settings { revision parts prior } fittedParts { part fitted whyNot }
  counts { looks fish broods sires dams } selection { scored scoredBeforeSorting warning }
  waiting { id }
  result { shown linearRefusal { code message remedy } reml { heritability standardError }
    remlRefusal { code message remedy }
    linear { heritability { mean fromPrior bands { probability low high } curve { heritability probability }
      prior { prior source } } } }`;

const FEW = ['RED', 'BLUE', 'PALE'] as const;

describe('what a trait passes on', () => {
  let api: RunningApi;
  let traitId: string;
  const tags: string[] = [];
  const values = new Map<string, number>();
  const ids = new Map<string, string>();
  const hatched = daysAgo(200);

  const merit = async (id = traitId): Promise<Merit> =>
    (
      await api.graphql<{ traitMerit: Merit }>(
        `query ($id: ID!) { traitMerit(traitId: $id) { ${MERIT} } }`,
        { id },
      )
    ).traitMerit;
  const setModel = (input: object) =>
    api.send<{ setTraitModel: Merit }>(
      `mutation ($input: SetTraitModelInput!) { setTraitModel(input: $input) { ${MERIT} } }`,
      { input },
    );
  const score = async (tag: string, value: number): Promise<void> => {
    values.set(tag, value);
    await newRecords(api).recordScores({
      fishId: ids.get(tag)!,
      scoredOn: daysAgo(10),
      scores: [{ traitId, value }],
    });
  };

  beforeAll(async () => {
    api = await startApi();
    const make = newRecords(api);
    traitId = await make.createTrait({
      key: 'spread',
      name: 'Spread',
      kind: 'MEASURED',
      unit: '°',
    });
    for (const tag of FEW)
      ids.set(tag, await make.createFish({ tag, sex: tag === 'PALE' ? 'FEMALE' : 'MALE' }));
    for (const sire of ['RED', 'BLUE']) {
      const spawn = await make.createSpawn({
        tag: `S-${sire}`,
        sireId: ids.get(sire),
        damId: ids.get('PALE'),
        hatchDate: hatched,
      } as never);
      const young = Array.from({ length: 8 }, (_, k) => `${sire}-${k + 1}`);
      await make.addFishToSpawn({ spawnId: spawn, number: 8, tags: young });
      tags.push(...young);
    }
    const { fishList } = await api.graphql<{
      fishList: { edges: { node: { id: string; tag: string } }[] };
    }>('{ fishList(first: 100) { edges { node { id tag } } } }');
    for (const { node } of fishList.edges) ids.set(node.tag, node.id);
    for (const [k, tag] of tags.entries())
      await score(tag, 160 + (tag.startsWith('RED') ? 6 : 0) + ((k * 7) % 5));
  });
  afterAll(() => api.close());

  /** The same records, given to the library itself. */
  const scores = () => {
    const pedigree = buildPedigree([
      ...FEW.map((id) => ({ id })),
      ...tags.map((id) => ({ id, sire: id.split('-')[0]!, dam: 'PALE' })),
    ]);
    return {
      pedigree,
      fish: Int32Array.from(tags, (tag) => pedigree.indexOf(tag)),
      traits: [{ name: 'Spread', values: Float64Array.from(tags, (tag) => values.get(tag)!) }],
      shared: [
        {
          name: 'brood',
          levels: ['RED', 'BLUE'],
          codes: Int32Array.from(tags, (tag) => (tag.startsWith('RED') ? 0 : 1)),
        },
      ],
    };
  };

  it('is what the library says of the same records', async () => {
    const { counts, result, fittedParts, selection } = await merit();
    expect(counts).toEqual({ looks: 16, fish: 16, broods: 2, sires: 2, dams: 1 });
    expect(fittedParts.filter(({ fitted }) => fitted).map(({ part }) => part)).toEqual(['BROOD']);
    expect(fittedParts.find(({ part }) => part === 'SEASON')?.whyNot).toMatch(/one season/);
    // Nothing was sorted yet: every score is of a fish that nobody chose.
    expect(selection).toEqual({ scored: 16, scoredBeforeSorting: 16, warning: null });
    const posterior = valuesOverHeritability(scores(), { prior: fishSizePrior });
    const known = posterior.heritability;
    const shown = result?.linear?.heritability;
    expect(shown?.mean).toBeCloseTo(known.mean, 8);
    expect(shown?.fromPrior).toBeCloseTo(known.fromPrior, 8);
    expect(shown?.prior).toEqual({ prior: 'FISH_SIZE', source: fishSizePrior.source });
    expect(shown?.curve).toHaveLength(known.grid.length);
    for (const { probability, low, high } of shown?.bands ?? []) {
      const band = posterior.heritabilityBand(probability);
      expect([low, high]).toEqual([expect.closeTo(band.low, 8), expect.closeTo(band.high, 8)]);
    }
    // Two broods cannot tell what is inherited from what a brood shares: the one estimate says so, the curve stays wide.
    expect(() => valuesByReml(scores())).toThrow(/cannot tell additive and brood/);
    expect(result?.remlRefusal).toMatchObject({ code: 'MERIT_NOT_SEPARABLE' });
  });

  it('refuses with a code, in words and with a remedy', async () => {
    const other = await newRecords(api).createTrait({ key: 'none', name: 'None', kind: 'COUNT' });
    const { result } = await merit(other);
    expect(result?.linear).toBeNull();
    expect(result?.linearRefusal).toMatchObject({
      code: 'MERIT_TOO_FEW',
      message: expect.stringMatching(/None/) as string,
      remedy: expect.stringMatching(/Score more fish/) as string,
    });
  });

  it('changes its settings at the revision that was seen, and goes back to the usual ones', async () => {
    const { data } = await setModel({ traitId, revision: 0, brood: false, prior: 'FLAT' });
    const set = data?.setTraitModel;
    expect(set?.settings).toMatchObject({ revision: 1, prior: 'FLAT' });
    expect(set?.settings.parts).not.toContain('BROOD');
    const { shared: _, ...alone } = scores();
    expect(set?.result?.linear?.heritability.mean).toBeCloseTo(
      valuesOverHeritability(alone).heritability.mean,
      8,
    );
    const reml = valuesByReml(alone).components.heritability[0];
    expect(set?.result?.reml?.heritability).toBeCloseTo(reml?.value ?? NaN, 6);
    const { errors } = await setModel({ traitId, revision: 0, brood: true });
    expect(errors?.[0]?.extensions.code).toBe('CONFLICT_REVISION');
    const { resetTraitModel } = await api.graphql<{ resetTraitModel: Merit }>(
      `mutation ($input: ResetTraitModelInput!) { resetTraitModel(input: $input) { ${MERIT} } }`,
      { input: { traitId, revision: 1 } },
    );
    expect(resetTraitModel.settings).toMatchObject({ revision: 0, prior: 'FISH_SIZE' });
  });

  it('is worked out anew when a score changes', async () => {
    const before = await merit();
    await score('BLUE-1', 175);
    const after = await merit();
    expect(after.counts.looks).toBe(17);
    expect(after.result?.linear?.heritability.mean).not.toBe(
      before.result?.linear?.heritability.mean,
    );
  });
});
