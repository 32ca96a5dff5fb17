import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

const TOGETHER = `query ($a: ID!, $b: ID!, $fish: ID) { traitsTogether(traitId: $a, otherId: $b, fishId: $fish) {
  trait { id } other { id } fishScored fishWithBoth verdict likelihoodRatio notes selectionCaution
  correlations { part correlation standardError } refusal { code remedy } waiting { id }
  ofFish { trait { id } value standardError aboveLine giveOrTake } } }`;

interface Together {
  trait: { id: string };
  other: { id: string };
  fishScored: number;
  fishWithBoth: number;
  verdict: string | null;
  likelihoodRatio: number | null;
  correlations: { part: string; correlation: number | null; standardError: number | null }[];
  refusal: { code: string; remedy: string } | null;
  waiting: unknown;
  ofFish: {
    trait: { id: string };
    value: number;
    standardError: number;
    aboveLine: number | null;
    giveOrTake: number;
  }[];
}

describe('two traits together', () => {
  let api: RunningApi;
  let spread = '';
  let length = '';
  let bare = '';
  const ids = new Map<string, string>();

  const together = async (a: string, b: string, fish: string | null = null): Promise<Together> =>
    (await api.graphql<{ traitsTogether: Together }>(TOGETHER, { a, b, fish })).traitsTogether;

  beforeAll(async () => {
    api = await startApi();
    const make = newRecords(api);
    spread = await make.createTrait({ key: 'spread', name: 'Spread', kind: 'MEASURED' });
    length = await make.createTrait({ key: 'length', name: 'Length', kind: 'MEASURED' });
    bare = await make.createTrait({ key: 'bare', name: 'Bare', kind: 'MEASURED' });
    for (let pair = 0; pair < 6; pair++) {
      const sireId = await make.createFish({ tag: `S${pair}`, sex: 'MALE' });
      const damId = await make.createFish({ tag: `D${pair}`, sex: 'FEMALE' });
      const tags = Array.from({ length: 6 }, (_, k) => `P${pair}-${k}`);
      const spawnId = await make.createSpawn({
        ...{ tag: `P${pair}`, sireId, damId, hatchDate: daysAgo(200) },
      });
      await make.addFishToSpawn({ spawnId, number: 6, tags });
    }
    const { fishList } = await api.graphql<{
      fishList: { edges: { node: { id: string; tag: string } }[] };
    }>('{ fishList(first: 100) { edges { node { id tag } } } }');
    for (const { node } of fishList.edges) ids.set(node.tag, node.id);
    for (let pair = 0; pair < 6; pair++)
      for (let k = 0; k < 6; k++) {
        const own = (k * 7 + pair * 3) % 5;
        const scores = [{ traitId: spread, value: 150 + 6 * pair + own }];
        if (k < 4) scores.push({ traitId: length, value: 40 + 2 * pair - ((own * 2) % 3) });
        await newRecords(api).recordScores({
          fishId: ids.get(`P${pair}-${k}`)!,
          scoredOn: daysAgo(20),
          scores,
        });
      }
  });
  afterAll(() => api.close());

  it('are counted, and told part by part', async () => {
    const told = await together(spread, length);
    expect(told).toMatchObject({
      ...{ trait: { id: spread }, other: { id: length }, waiting: null, ofFish: [] },
      ...{ fishScored: 36, fishWithBoth: 24, refusal: null },
    });
    expect(told.correlations[0]!.part).toBe('additive');
    expect(told.correlations.at(-1)!.part).toBe('residual');
    for (const { correlation } of told.correlations)
      if (correlation !== null) expect(Math.abs(correlation)).toBeLessThanOrEqual(1);
    expect(told.verdict === 'CANNOT_TELL_YET').toBe(told.likelihoodRatio! <= 3.8414588);
  });

  it('are the same from either side, the trait that was asked about first', async () => {
    const fish = ids.get('P5-0')!;
    const one = await together(spread, length, fish);
    const other = await together(length, spread, fish);
    expect(other.correlations).toEqual(one.correlations);
    expect(other.verdict).toBe(one.verdict);
    expect(one.ofFish.map(({ trait }) => trait.id)).toEqual([spread, length]);
    expect(other.ofFish).toEqual(one.ofFish.toReversed());
    // Of no line, so there is no mean to hold it against.
    expect(one.ofFish[0]!.aboveLine).toBeNull();
    const poor = await together(spread, length, ids.get('P0-0')!);
    expect(one.ofFish[0]!.value).toBeGreaterThan(poor.ofFish[0]!.value);
    for (const { giveOrTake, standardError } of one.ofFish)
      expect(giveOrTake).toBeCloseTo(0.6407758 * standardError, 6);
  });

  it('say why not where one of them has no scores, and refuse a trait with itself', async () => {
    const { refusal, verdict } = await together(spread, bare);
    expect(verdict).toBeNull();
    expect(refusal!.code).toMatch(/^MERIT_/);
    expect(refusal!.remedy.length).toBeGreaterThan(10);
    await expect(together(spread, spread)).rejects.toThrow(/same trait/);
    await expect(together(spread, length, spread)).rejects.toThrow();
  });
});
