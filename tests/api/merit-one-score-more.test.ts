import { type AnimalScores, solveAtRatios, writtenModel } from '@linewright/merit';
import { buildPedigree } from '@linewright/pedigree';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';
import { type HeldComputations, holdComputations } from './held-computation.js';
import { ALWAYS_LONG, joined, ScoredStock, workedOut } from './scored-stock.js';

interface Value {
  readonly value: number;
  readonly standardError: number;
  readonly bands: readonly { low: number; high: number }[];
}
interface Found {
  readonly waiting: boolean;
  readonly scoresTakenInSince: number | null;
  readonly whyNotTakenIn: string | null;
  readonly looks: number;
  readonly shares: readonly number[];
  readonly values: ReadonlyMap<string, Value>;
}
interface Look {
  readonly tag: string;
  readonly value: number;
  readonly ago: number;
}

const ASKED = `query ($id: ID!) { traitMerit(traitId: $id) { waiting { id } scoresTakenInSince whyNotTakenIn counts { looks }
  result { linear { shares { share } } } } }`;
const RANKED = `query ($id: ID!) { rankedFish(traitId: $id, inUse: false, first: 100) {
  edges { node { value standardError bands { low high } fish { tag } } } } }`;
const ON_FISH = `query ($id: ID!) { fish(id: $id) { merit { scoresTakenInSince waiting { id } value { value } } } }`;

/** What the pages are told at once, nothing waited for; no values where there are none yet. */
const toldAtOnce = async (api: RunningApi, id: string): Promise<Found> => {
  const { traitMerit } = await api.graphql<{
    traitMerit: {
      waiting: object | null;
      scoresTakenInSince: number | null;
      whyNotTakenIn: string | null;
      counts: { looks: number };
      result: { linear: { shares: { share: number }[] } } | null;
    };
  }>(ASKED, { id });
  const { data } = await api.send<{
    rankedFish: { edges: { node: Value & { fish: { tag: string } } }[] };
  }>(RANKED, { id });
  return {
    waiting: traitMerit.waiting !== null,
    scoresTakenInSince: traitMerit.scoresTakenInSince,
    whyNotTakenIn: traitMerit.whyNotTakenIn,
    looks: traitMerit.counts.looks,
    shares: traitMerit.result?.linear.shares.map(({ share }) => share) ?? [],
    values: new Map((data?.rankedFish.edges ?? []).map(({ node }) => [node.fish.tag, node])),
  };
};

const YOUNG = ['A', 'B'].flatMap((brood) =>
  Array.from({ length: 8 }, (_, k) => ({ brood, k, tag: `${brood}-${k + 1}` })),
);
/** As the stock is filled. */
const FIRST: readonly Look[] = YOUNG.map(({ brood, k, tag }) => ({
  ...{ tag, ago: 10 + 7 * (k % 3) },
  value: 160 + (brood === 'A' ? 6 : 0) + ((k * 7) % 5),
}));

/** The same looks by the library itself at given shares: breeding value and its standard error by tag. */
const bySolving = (looks: readonly Look[], shares: readonly number[]): Map<string, number[]> => {
  const pedigree = buildPedigree([
    ...['RED', 'BLUE', 'PALE', 'GREY'].map((id) => ({ id })),
    ...YOUNG.map(({ tag, brood }) => ({
      ...{ id: tag, sire: brood === 'A' ? 'RED' : 'BLUE', dam: 'PALE' },
    })),
  ]);
  const column = (name: string, of: readonly (string | null)[]) => {
    const levels = [...new Set(of)].filter((level) => level !== null);
    return {
      name,
      levels,
      codes: Int32Array.from(of, (l) => (l === null ? -1 : levels.indexOf(l))),
    };
  };
  const young = new Map(YOUNG.map((one) => [one.tag, one]));
  const ages = looks.map(({ tag, ago }) => (young.has(tag) ? 200 - ago : null));
  const known = ages.filter((age) => age !== null);
  const mean = known.reduce((sum, age) => sum + age, 0) / known.length;
  const scores: AnimalScores = {
    pedigree,
    fish: Int32Array.from(looks, ({ tag }) => pedigree.indexOf(tag)),
    traits: [{ name: 'Spread', values: Float64Array.from(looks, ({ value }) => value) }],
    // No season: with two broods it says nothing that the brood does not say.
    fixed: [
      {
        kind: 'classes',
        ...column(
          'sex',
          looks.map(({ tag }) => ((young.get(tag)?.k ?? 0) % 2 === 0 ? 'm' : 'f')),
        ),
      },
      {
        kind: 'covariate',
        name: 'age',
        values: Float64Array.from(ages, (age) => (age ?? mean) - mean),
      },
    ],
    shared: [
      column(
        'brood',
        looks.map(({ tag }) => young.get(tag)?.brood ?? null),
      ),
    ],
  };
  const { animal, equations } = writtenModel(scores);
  const rest = shares.at(-1)!;
  const solved = solveAtRatios(
    animal,
    equations,
    shares.slice(0, -1).map((share) => share / rest),
  );
  // Errors at the scale that is estimated again are held against each other by the caller.
  return new Map(
    pedigree.ids.map((id, i) => {
      const equation = equations.termEquation[0]![i]!;
      return [
        id,
        [solved.solution[equation]!, Math.sqrt(solved.errorVariances[equation]! / solved.scale)],
      ];
    }),
  );
};

describe('one score more of a large stock', () => {
  let api: RunningApi;
  let other: RunningApi;
  let stock: ScoredStock;
  let held: HeldComputations;
  let last: Found;
  beforeAll(async () => {
    api = await startApi({ environment: { LONG_FROM_FISH: ALWAYS_LONG } });
    stock = new ScoredStock(api);
    await stock.fill();
    other = await joined(api, ALWAYS_LONG);
  });
  beforeEach(async () => {
    await workedOut(api, stock.traitId);
    last = await toldAtOnce(api, stock.traitId);
    expect(last).toMatchObject({ waiting: false, scoresTakenInSince: null });
    held = await holdComputations(api.served.databaseUrl, "NEW.state = 'done'");
  });
  afterEach(() => held.release().catch(() => undefined));
  afterAll(async () => {
    await other.close();
    await api.close();
  });

  it('is answered from the last solution, as the engine solves these scores at its shares', async () => {
    await stock.score('RED', 171, 10);
    const now = await toldAtOnce(api, stock.traitId);
    expect(now).toMatchObject({ waiting: true, scoresTakenInSince: 1, shares: last.shares });
    const before = bySolving(FIRST, last.shares);
    const after = bySolving([...FIRST, { tag: 'RED', value: 171, ago: 10 }], last.shares);
    expect(now.values.size).toBe(20);
    for (const [tag, { value, standardError, bands }] of now.values) {
      const was = last.values.get(tag)!;
      const [[valueBefore, errorBefore], [valueAfter, errorAfter]] = [
        before.get(tag)! as [number, number],
        after.get(tag)! as [number, number],
      ];
      const left = errorAfter / errorBefore;
      expect(value - was.value, tag).toBeCloseTo(valueAfter - valueBefore, 6);
      expect(standardError / was.standardError, tag).toBeCloseTo(left, 6);
      const [narrow, wide] = [bands[2]!, was.bands[2]!];
      expect(narrow.high - narrow.low, tag).toBeCloseTo(left * (wide.high - wide.low), 6);
    }
    expect(now.values.get('RED')!.standardError).toBeLessThan(
      last.values.get('RED')!.standardError,
    );
    const { fish } = await api.graphql<{
      fish: { merit: { scoresTakenInSince: number | null; value: { value: number } | null }[] };
    }>(ON_FISH, { id: stock.id('RED') });
    expect(fish.merit[0]).toMatchObject({
      scoresTakenInSince: 1,
      value: { value: now.values.get('RED')!.value },
    });
  });

  it('is told the same by another process, and near to what comes after', async () => {
    await stock.score('GREY', 158, 10);
    const now = await toldAtOnce(api, stock.traitId);
    expect(now.scoresTakenInSince).toBe(1);
    expect(await toldAtOnce(other, stock.traitId)).toEqual(now);
    await held.release();
    await workedOut(api, stock.traitId);
    const whole = await toldAtOnce(api, stock.traitId);
    expect(whole).toMatchObject({ waiting: false, scoresTakenInSince: null });
    const off = (from: Found): number =>
      Math.max(
        ...[...whole.values].map(
          ([tag, { value, standardError }]) =>
            Math.abs(value - from.values.get(tag)!.value) / standardError,
        ),
      );
    // What the newest score says of the heritability is all that is missing; it is one of eighteen here.
    expect(off(now)).toBeLessThan(0.25);
    expect(off(now)).toBeLessThan(off(last) / 2);
  });

  it('is not told from a solution of another model, nor after another change', async () => {
    await stock.score('A-1', 167, 9);
    // A second look at a fish: what stays with it from look to look is set apart from now on.
    expect(await toldAtOnce(api, stock.traitId)).toMatchObject({
      ...{ waiting: true, scoresTakenInSince: null, shares: [] },
      whyNotTakenIn: expect.stringContaining('looked at again for the first time') as string,
    });
    await held.release();
    await workedOut(api, stock.traitId);
    held = await holdComputations(api.served.databaseUrl, "NEW.state = 'done'");
    await stock.correct('fish', 'A-2', { sex: 'MALE' });
    await stock.score('BLUE', 165, 10);
    const now = await toldAtOnce(api, stock.traitId);
    expect(now).toMatchObject({ waiting: true, scoresTakenInSince: null });
    expect(now.whyNotTakenIn).toContain('Other records');
    expect(now.values.size).toBe(0);
  });

  it('is read with what else became of the scores meanwhile', async () => {
    const before = last.looks;
    await stock.score('B-4', 166, 9);
    await stock.change('withdrawScore', 'WithdrawInput', {
      ...{ id: stock.scores.get('B-5'), reason: 'Another fish.', revision: 1 },
    });
    const now = await toldAtOnce(api, stock.traitId);
    expect(now).toMatchObject({ waiting: true, scoresTakenInSince: null, looks: before });
    expect(now.whyNotTakenIn).toContain('Other records');
    expect(await toldAtOnce(other, stock.traitId)).toEqual(now);
  });

  it('takes several in, and looks again where some were looked at again before', async () => {
    const many = ['PALE', 'B-3', 'A-6'];
    for (const [k, tag] of many.entries()) await stock.score(tag, 163 + k, 8);
    const now = await toldAtOnce(api, stock.traitId);
    expect(now.scoresTakenInSince).toBe(3);
    await held.release();
    await workedOut(api, stock.traitId);
    const whole = await toldAtOnce(api, stock.traitId);
    for (const [tag, { value, standardError }] of whole.values)
      expect(Math.abs(value - now.values.get(tag)!.value) / standardError, tag).toBeLessThan(0.25);
  });
});
