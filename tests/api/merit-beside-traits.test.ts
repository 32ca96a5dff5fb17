import { fishSizePrior, valuesOverHeritability } from '@linewright/merit';
import { buildPedigree } from '@linewright/pedigree';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

interface Told {
  readonly settings: { readonly revision: number; readonly besideTraitIds: readonly string[] };
  readonly besideTraits: readonly {
    name: string;
    fitted: boolean;
    whyNot: string | null;
    levels: number;
    looksWithout: number;
  }[];
  readonly result: {
    readonly notes: readonly { code: string; message: string }[];
    readonly linear: {
      readonly heritability: { readonly mean: number };
      readonly effects: readonly { column: string; level: string | null; value: number }[];
    };
  };
}

const TOLD = `settings { revision besideTraitIds } besideTraits { name fitted whyNot levels looksWithout }
  result { notes { code message } linear { heritability { mean } effects { column level value } } }`;

const YOUNG = ['A', 'B'].flatMap((brood) =>
  Array.from({ length: 8 }, (_, k) => ({ brood, k, tag: `${brood}-${k + 1}` })),
);
const feedOf = (k: number): number => 1 + (k % 3);
const depthOf = (k: number): number => 10 + ((k * 5) % 8);
const spreadOf = (brood: string, k: number): number =>
  160 + (brood === 'A' ? 6 : 0) + 5 * feedOf(k) + ((k * 7) % 5);

describe('own traits that a trait is corrected for', () => {
  let api: RunningApi;
  const ids = new Map<string, string>();
  const traits = new Map<string, string>();
  const trait = (name: string): string => traits.get(name)!;

  const set = async (
    besideTraitIds: readonly string[],
    revision: number,
    traitId = trait('Spread'),
  ) =>
    api.send<{ setTraitModel: Told }>(
      `mutation ($input: SetTraitModelInput!) { setTraitModel(input: $input) { ${TOLD} } }`,
      { input: { traitId, revision, besideTraitIds } },
    );
  const told = async (): Promise<Told> =>
    (
      await api.graphql<{ traitMerit: Told }>(
        `query ($id: ID!) { traitMerit(traitId: $id) { ${TOLD} } }`,
        { id: trait('Spread') },
      )
    ).traitMerit;

  beforeAll(async () => {
    api = await startApi();
    const make = newRecords(api);
    for (const [name, kind] of [
      ['Spread', 'MEASURED'],
      ['Feed', 'ORDINAL'],
      ['Depth', 'MEASURED'],
      ['Again', 'ORDINAL'],
      ['Empty', 'COUNT'],
    ] as const) {
      const scale = kind === 'ORDINAL' ? { minimum: 1, maximum: 5 } : {};
      traits.set(name, await make.createTrait({ key: name.toLowerCase(), name, kind, ...scale }));
    }
    for (const tag of ['RED', 'BLUE', 'PALE'])
      ids.set(tag, await make.createFish({ tag, sex: tag === 'PALE' ? 'FEMALE' : 'MALE' }));
    for (const [brood, sire] of [
      ['A', 'RED'],
      ['B', 'BLUE'],
    ] as const) {
      const spawnId = await make.createSpawn({
        ...{ tag: brood, sireId: ids.get(sire)!, damId: ids.get('PALE')! },
        hatchDate: daysAgo(200),
      });
      const tags = YOUNG.filter((one) => one.brood === brood).map(({ tag }) => tag);
      const made = await make.addFishToSpawn({ spawnId, number: 8, tags });
      made.forEach((id, k) => ids.set(tags[k]!, id));
    }
    for (const { brood, k, tag } of YOUNG)
      await make.recordScores({
        ...{ fishId: ids.get(tag)!, scoredOn: daysAgo(10) },
        scores: [
          { traitId: trait('Spread'), value: spreadOf(brood, k) },
          { traitId: trait('Feed'), value: feedOf(k) },
          // The same once more under another name.
          { traitId: trait('Again'), value: 4 - feedOf(k) },
          ...(k === 0 ? [] : [{ traitId: trait('Depth'), value: depthOf(k) }]),
        ],
      });
  });
  afterAll(() => api.close());

  /** The same by the library: heritability with these columns. */
  const byLibrary = (): number => {
    const pedigree = buildPedigree([
      ...['RED', 'BLUE', 'PALE'].map((id) => ({ id })),
      ...YOUNG.map(({ tag, brood }) => ({
        ...{ id: tag, sire: brood === 'A' ? 'RED' : 'BLUE', dam: 'PALE' },
      })),
    ]);
    const known = YOUNG.filter(({ k }) => k > 0).map(({ k }) => depthOf(k));
    const mean = known.reduce((sum, depth) => sum + depth, 0) / known.length;
    return valuesOverHeritability(
      {
        pedigree,
        fish: Int32Array.from(YOUNG, ({ tag }) => pedigree.indexOf(tag)),
        traits: [
          {
            name: 'Spread',
            values: Float64Array.from(YOUNG, ({ brood, k }) => spreadOf(brood, k)),
          },
        ],
        fixed: [
          {
            ...{ kind: 'classes', name: 'Feed', levels: ['1', '2', '3'] },
            codes: Int32Array.from(YOUNG, ({ k }) => feedOf(k) - 1),
          },
          {
            ...{ kind: 'covariate', name: 'Depth' },
            values: Float64Array.from(YOUNG, ({ k }) => (k === 0 ? 0 : depthOf(k) - mean)),
          },
        ],
        shared: [
          {
            ...{ name: 'brood', levels: ['A', 'B'] },
            codes: Int32Array.from(YOUNG, ({ brood }) => (brood === 'A' ? 0 : 1)),
          },
        ],
      },
      { prior: fishSizePrior },
    ).heritability.mean;
  };

  it('are columns of the model, by level or as a number, and it is told what they did', async () => {
    const before = await told();
    expect(before).toMatchObject({ besideTraits: [], settings: { besideTraitIds: [] } });
    const beside = [trait('Feed'), trait('Depth')];
    const { data } = await set(beside, 0);
    const now = data!.setTraitModel;
    expect(now.settings).toEqual({ revision: 1, besideTraitIds: beside });
    expect(now.besideTraits).toEqual([
      { name: 'Feed', fitted: true, whyNot: null, levels: 3, looksWithout: 0 },
      { name: 'Depth', fitted: true, whyNot: null, levels: 0, looksWithout: 2 },
    ]);
    const { effects, heritability } = now.result.linear;
    expect(effects.map(({ column, level }) => [column, level])).toEqual([
      ['Feed', '1'],
      ['Feed', '2'],
      ['Feed', '3'],
      ['Depth', null],
    ]);
    expect(effects[2]!.value - effects[0]!.value).toBeGreaterThan(7);
    expect(heritability.mean).toBeCloseTo(byLibrary(), 8);
    expect(heritability.mean).not.toBeCloseTo(before.result.linear.heritability.mean, 4);
  });

  it('that say the same twice are told, and left out where nothing is scored', async () => {
    const { data } = await set([trait('Feed'), trait('Again'), trait('Empty')], 1);
    const { result, besideTraits } = data!.setTraitModel;
    expect(result.notes).toEqual([
      {
        code: 'MERIT_TOLD_TWICE',
        message: expect.stringMatching(/"2", "3" of "Again" says nothing/) as string,
      },
    ]);
    expect(besideTraits[2]).toMatchObject({
      ...{ name: 'Empty', fitted: false },
      whyNot: 'No fish that counts here has a score of it.',
    });
  });

  it('make the figures new when a score of theirs changes', async () => {
    const { data } = await set([trait('Feed')], 2);
    await newRecords(api).recordScores({
      ...{ fishId: ids.get('A-1')!, scoredOn: daysAgo(9) },
      scores: [{ traitId: trait('Feed'), value: 3 }],
    });
    // The look on the same day still counts; one nearer to it would not be there.
    expect((await told()).result).toEqual(data!.setTraitModel.result);
    await newRecords(api).recordScores({
      ...{ fishId: ids.get('A-2')!, scoredOn: daysAgo(4) },
      scores: [{ traitId: trait('Spread'), value: 171 }],
    });
    expect((await told()).result.linear.effects).not.toEqual(
      data!.setTraitModel.result.linear.effects,
    );
  });

  it('are neither the trait itself nor one that is not there', async () => {
    const itself = await set([trait('Spread')], 3);
    expect(itself.errors?.[0]).toMatchObject({
      message: expect.stringContaining('for itself') as string,
      extensions: { code: 'VALIDATION', fields: [{ field: 'besideTraitIds' }] },
    });
    const nowhere = await set(['00000000-0000-4000-8000-000000000000'], 3);
    expect(nowhere.errors?.[0]?.extensions.code).toBe('NOT_FOUND');
    const many = await set(
      Array.from({ length: 6 }, (_, k) => `00000000-0000-4000-8000-00000000000${k}`),
      3,
    );
    expect(many.errors?.[0]?.extensions.code).toBe('VALIDATION');
  });
});
