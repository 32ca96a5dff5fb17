import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

const MERIT = `query ($id: ID!) { traitMerit(traitId: $id) {
  counts { looks fish broods } fittedParts { part fitted whyNot }
  result { notes { code message } linear { heritability { mean fromPrior bands { low high } } effects { column level value } }
    linearRefusal { code message remedy }
    reml { heritability standardError atEdge } remlRefusal { code message remedy } } } }`;

interface Refusal {
  readonly code: string;
  readonly message: string;
  readonly remedy: string;
}
interface Told {
  readonly counts: { readonly looks: number; readonly fish: number; readonly broods: number };
  readonly fittedParts: readonly { part: string; fitted: boolean; whyNot: string | null }[];
  readonly result: {
    readonly notes: readonly { code: string; message: string }[];
    readonly linear: {
      readonly heritability: {
        readonly mean: number;
        readonly fromPrior: number;
        readonly bands: readonly { low: number; high: number }[];
      };
      readonly effects: readonly { column: string; level: string | null; value: number }[];
    } | null;
    readonly linearRefusal: Refusal | null;
    readonly reml: {
      readonly heritability: number;
      readonly standardError: number | null;
      readonly atEdge: boolean;
    } | null;
    readonly remlRefusal: Refusal | null;
  };
}
/** A fish, its score, and how many days ago it was looked at. */
type Look = readonly [tag: string, value: number, ago?: number];

const PAIRS: Readonly<Record<string, readonly [string, string]>> = {
  ...{ A: ['S1', 'D1'], B: ['S2', 'D2'], C: ['S1', 'D2'] },
};
const BROODS = Object.keys(PAIRS);
const YOUNG = BROODS.flatMap((brood) => Array.from({ length: 8 }, (_, k) => `${brood}-${k + 1}`));
const UNRELATED = Array.from({ length: 8 }, (_, k) => `U-${k + 1}`);
const numberOf = (tag: string): number => Number(tag.slice(2));
const isMale = (tag: string): boolean => numberOf(tag) % 2 === 0;
/** 0 to 4, the same in each brood. */
const spread = (tag: string): number => (numberOf(tag) * 7) % 5;

/** Scores of traits that each say little, or what cannot be, in one stock. */
class LittleSaid {
  readonly ids = new Map<string, string>();

  constructor(private readonly api: RunningApi) {}

  id = (tag: string): string => this.ids.get(tag)!;

  async fill(): Promise<void> {
    const make = newRecords(this.api);
    for (const tag of ['S1', 'S2', 'D1', 'D2', ...UNRELATED])
      this.ids.set(
        tag,
        await make.createFish({ tag, sex: tag.startsWith('D') ? 'FEMALE' : 'MALE' }),
      );
    for (const brood of BROODS)
      await this.addBrood(
        brood,
        YOUNG.filter((tag) => tag.startsWith(brood)),
      );
  }

  async addBrood(brood: string, young: readonly string[]): Promise<void> {
    const make = newRecords(this.api);
    const [sire, dam] = PAIRS[brood] ?? ['S2', 'D1'];
    const spawnId = await make.createSpawn({
      ...{ tag: `Brood ${brood}`, sireId: this.id(sire), damId: this.id(dam) },
      hatchDate: daysAgo(200),
    });
    for (const sex of ['MALE', 'FEMALE'] as const) {
      const all = young.filter((tag) => isMale(tag) === (sex === 'MALE'));
      for (let k = 0; k < all.length; k += 50) {
        const tags = all.slice(k, k + 50);
        const made = await make.addFishToSpawn({ spawnId, number: tags.length, tags, sex });
        made.forEach((id, at) => this.ids.set(tags[at]!, id));
      }
    }
  }

  async trait(name: string, looks: readonly Look[]): Promise<string> {
    const make = newRecords(this.api);
    const key = name.toLowerCase().replaceAll(' ', '_');
    const traitId = await make.createTrait({ key, name, kind: 'MEASURED', unit: 'mm' });
    for (const [tag, value, ago = 10] of looks)
      await make.recordScores({
        ...{ fishId: this.id(tag), scoredOn: daysAgo(ago) },
        scores: [{ traitId, value }],
      });
    return traitId;
  }

  async told(id: string): Promise<Told> {
    return (await this.api.graphql<{ traitMerit: Told }>(MERIT, { id })).traitMerit;
  }

  /** What is told of a trait of its own with these looks. */
  async scored(name: string, looks: readonly Look[]): Promise<Told> {
    return this.told(await this.trait(name, looks));
  }
}

const whyNot = ({ fittedParts }: Told, part: string): string | null | undefined =>
  fittedParts.find((one) => one.part === part)?.whyNot;
const codes = ({ result }: Told): string[] => result.notes.map(({ code }) => code);

describe('scores that say little', () => {
  let api: RunningApi;
  let stock: LittleSaid;
  beforeAll(async () => {
    api = await startApi();
    stock = new LittleSaid(api);
    await stock.fill();
  });
  afterAll(() => api.close());

  it('of one season, sex and age leave these out, and say so', async () => {
    const males = YOUNG.filter(isMale).map((tag): Look => [tag, 30 + spread(tag)]);
    const told = await stock.scored('Level', males);
    expect(whyNot(told, 'SEASON')).toBe('All looks were in one season.');
    expect(whyNot(told, 'SEX')).toBe('All scored fish are of one sex on record.');
    expect(whyNot(told, 'AGE')).toBe('All looks whose age is known were at one age.');
    expect(told.result.linear?.effects.map(({ column }) => column)).toEqual(['mean']);
  });

  it('that are all alike are refused', async () => {
    const told = await stock.scored(
      'Alike',
      YOUNG.map((tag): Look => [tag, 30]),
    );
    expect(told.result.linear).toBeNull();
    expect(told.result.linearRefusal).toMatchObject({
      code: 'MERIT_NO_VARIATION',
      message: expect.stringContaining('all scores of "Alike" are the same') as string,
      remedy: expect.stringContaining('Score fish that differ') as string,
    });
    expect(told.result.remlRefusal?.code).toBe('MERIT_NO_VARIATION');
  });

  it('of two fish are refused', async () => {
    const told = await stock.scored('Two', [
      ['A-1', 30],
      ['A-2', 31],
    ]);
    expect(told.result.linearRefusal).toMatchObject({
      code: 'MERIT_TOO_FEW',
      message: expect.stringContaining('"Two" has 2 scores') as string,
    });
    expect(told.result.remlRefusal?.code).toBe('MERIT_TOO_FEW');
  });

  it('of fish that are all unrelated tell nothing of the heritability: it is what was assumed', async () => {
    const told = await stock.scored(
      'Apart',
      UNRELATED.map((tag): Look => [tag, 30 + spread(tag)]),
    );
    expect(codes(told)).toEqual(['MERIT_NO_RELATIVES']);
    expect(told.result.linear?.heritability.fromPrior).toBeCloseTo(1, 9);
    expect(told.result.remlRefusal).toMatchObject({
      code: 'MERIT_NOT_SEPARABLE',
      message: 'These scores cannot tell apart what is inherited and the rest.',
    });
    // One parent of theirs, and they are not all unrelated any more.
    const kin = await stock.scored('Kin', [
      ...UNRELATED.map((tag): Look => [tag, 30 + spread(tag)]),
      ...(['A-1', 'S1'] as const).map((tag): Look => [tag, 33]),
    ]);
    expect(codes(kin)).not.toContain('MERIT_NO_RELATIVES');
  });

  it('with columns that say the same twice keep one of them, and say which was left out', async () => {
    // Males were looked at in one quarter of the year, females in another: sex, season and age are one.
    const told = await stock.scored(
      'Twice',
      YOUNG.map((tag): Look => [tag, 30 + spread(tag), isMale(tag) ? 120 : 10]),
    );
    expect(codes(told)).toEqual(['MERIT_TOLD_TWICE', 'MERIT_TOLD_TWICE']);
    expect(told.result.notes.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^"male" of "sex" says nothing that the columns before/),
      expect.stringMatching(/^"age" says nothing/),
    ]);
    expect(told.result.linear?.effects.map(({ column }) => column)).toEqual(['season', 'season']);
  });

  it('of looks that contradict each other say so; a heritability of 0 has no standard error', async () => {
    const told = await stock.scored(
      'Contradict',
      YOUNG.flatMap((tag, k): Look[] => [
        [tag, 30 + 4 * (k % 3), 10],
        [tag, 38 - 4 * (k % 3), 9],
      ]),
    );
    expect(codes(told)).toEqual(['MERIT_LOOKS_CONTRADICT']);
    expect(told.result.reml).toEqual({ heritability: 0, standardError: null, atEdge: true });
    // A single estimate of 0 is no proof: the curve goes on.
    expect(told.result.linear?.heritability.bands.at(-1)?.high).toBeGreaterThan(0.2);
  });

  it('of looks that never differ count as one look a fish, and the heritability is that of one look', async () => {
    const value = (tag: string): number => 30 + (tag.startsWith('A') ? 3 : 0) + spread(tag) / 2;
    const once = await stock.scored(
      'Once',
      YOUNG.map((tag): Look => [tag, value(tag), 10]),
    );
    const same = await stock.scored(
      'Same',
      YOUNG.flatMap((tag): Look[] => [
        [tag, value(tag), 10],
        [tag, value(tag), 9],
      ]),
    );
    expect(same.counts.looks).toBe(48);
    expect(whyNot(same, 'LOOKS')).toMatch(/the very same score each time/);
    expect(same.result.linear?.heritability).toEqual(once.result.linear?.heritability);
    expect(same.result.linear?.heritability.mean).toBeLessThan(0.9);
  });

  it('written in two units are told as two heaps', async () => {
    const told = await stock.scored(
      'Units',
      YOUNG.map((tag, k): Look => [tag, k % 3 > 0 ? 30 + spread(tag) : (30 + spread(tag)) / 10]),
    );
    expect(told.result.notes).toEqual([
      {
        code: 'MERIT_UNITS_MIXED',
        message: expect.stringContaining('two heaps: 8 up to 3.4, 16 from 30') as string,
      },
    ]);
  });

  it('that would be all inherited give 1 without a standard error, and a curve beside it', async () => {
    // Young stand halfway between their parents, and nothing else differs but a hundredth from look to look.
    const of: Readonly<Record<string, number>> = { S1: 20, S2: 60, D1: 30, D2: 50 };
    const value = (tag: string): number => {
      const pair = PAIRS[tag[0]!];
      return pair === undefined || tag in of ? of[tag]! : (of[pair[0]]! + of[pair[1]]!) / 2;
    };
    const traitId = await stock.trait(
      'All',
      [...YOUNG, 'S1', 'S2', 'D1', 'D2'].map((tag): Look => [tag, value(tag) + 0.01 * spread(tag)]),
    );
    await api.graphql(
      `mutation ($input: SetTraitModelInput!) { setTraitModel(input: $input) { settings { revision } } }`,
      { input: { traitId, revision: 0, brood: false, prior: 'FLAT' } },
    );
    const { result } = await stock.told(traitId);
    expect(result.reml).toEqual({ heritability: 1, standardError: null, atEdge: true });
    const widest = result.linear!.heritability.bands.at(-1)!;
    expect([widest.low > 0.5, widest.low < 0.95, widest.high < 1]).toEqual([true, true, true]);
  });

  it('of a brood of 600 are worked out, and say that one brood tells little', async () => {
    const many = Array.from({ length: 600 }, (_, k) => `F-${k + 1}`);
    await stock.addBrood('F', many);
    const told = await stock.scored(
      'Six hundred',
      many.map((tag): Look => [tag, 30 + spread(tag) + (numberOf(tag) % 11) / 10]),
    );
    expect(told.counts).toEqual({ looks: 600, fish: 600, broods: 1 });
    expect(whyNot(told, 'BROOD')).toBe('Fewer than two broods were scored.');
    expect(told.result.linear?.heritability.fromPrior).toBeGreaterThan(0.99);
    expect(told.result.remlRefusal?.code).toBe('MERIT_NOT_SEPARABLE');
  });
});
