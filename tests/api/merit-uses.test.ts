import {
  inbreedingLoad,
  inbreedingOfMeasure,
  responseByGeneration,
  valuesOverHeritability,
} from '@linewright/merit';
import {
  bandsOfAll,
  Equations,
  animalModel,
  fishSizePrior,
  solveAtRatios,
} from '@linewright/merit';
import { generationDepth, buildPedigree } from '@linewright/pedigree';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';

interface Band {
  probability: number;
  low: number;
  high: number;
}
interface Value {
  kind: string;
  value: number;
  standardError: number;
  accuracy: number;
  bands: Band[];
}
interface FishMerit {
  trait: { id: string };
  value: Value | null;
  lineMean: number | null;
  expectedYoung: { aboveLine: number; giveOrTake: number } | null;
  ownLooks: number;
  scoredRelatives: number;
  amongSibs: { place: number; of: number } | null;
  inLine: { place: number; of: number } | null;
}
interface Ranked {
  edges: {
    cursor: string;
    node: Value & { fish: { id: string; tag: string }; ownLooks: number };
  }[];
  totalCount: number;
  pageInfo: { hasNextPage: boolean; endCursor: string | null };
}
interface Draw {
  id: string;
  revision: number;
  drawnFrom: number;
  fish: { id: string }[];
}

const VALUE = 'kind value standardError accuracy bands { probability low high }';
const PARENTS = ['RED', 'BLUE', 'PALE'];
const YOUNG = ['A', 'B'].flatMap((brood) =>
  Array.from({ length: 8 }, (_, k) => `${brood}-${k + 1}`),
);
const SIRE: Readonly<Record<string, string>> = { A: 'RED', B: 'BLUE' };

describe('values of fish, a trend and a draw', () => {
  let api: RunningApi;
  let traitId: string;
  let lineId: string;
  let spawnId: string;
  const ids = new Map<string, string>();
  const id = (tag: string): string => ids.get(tag)!;
  const scoreOf = (tag: string, k: number): number =>
    170 + (tag.startsWith('A') ? 6 : 0) + ((k * 7) % 5);

  beforeAll(async () => {
    api = await startApi();
    const make = newRecords(api);
    lineId = await make.createLine({ code: 'L', name: 'Line' });
    traitId = await make.createTrait({ key: 'spread', name: 'Spread', kind: 'MEASURED' });
    for (const tag of PARENTS)
      ids.set(tag, await make.createFish({ tag, lineId, sex: tag === 'PALE' ? 'FEMALE' : 'MALE' }));
    for (const brood of ['A', 'B']) {
      const spawn = await make.createSpawn({
        ...{ tag: brood, lineId, sireId: id(SIRE[brood]!), damId: id('PALE') },
        hatchDate: daysAgo(200),
      });
      if (brood === 'A') spawnId = spawn;
      const tags = YOUNG.filter((tag) => tag.startsWith(brood));
      await make.addFishToSpawn({ spawnId: spawn, number: tags.length, tags });
    }
    const { fishList } = await api.graphql<{
      fishList: { edges: { node: { id: string; tag: string } }[] };
    }>('{ fishList(first: 100) { edges { node { id tag } } } }');
    for (const { node } of fishList.edges) ids.set(node.tag, node.id);
    for (const [k, tag] of YOUNG.entries())
      await newRecords(api).recordScores({
        ...{ fishId: id(tag), scoredOn: daysAgo(10) },
        scores: [{ traitId, value: scoreOf(tag, k) }],
      });
  });
  afterAll(() => api.close());

  /** The same records, given to the library itself. */
  const engine = () => {
    const pedigree = buildPedigree([
      ...PARENTS.map((tag) => ({ id: tag })),
      ...YOUNG.map((tag) => ({ id: tag, sire: SIRE[tag[0]!]!, dam: 'PALE' })),
    ]);
    const scores = {
      pedigree,
      fish: Int32Array.from(YOUNG, (tag) => pedigree.indexOf(tag)),
      traits: [{ name: 'Spread', values: Float64Array.from(YOUNG, scoreOf) }],
      shared: [
        {
          name: 'brood',
          levels: ['A', 'B'],
          codes: Int32Array.from(YOUNG, (tag) => (tag.startsWith('A') ? 0 : 1)),
        },
      ],
    };
    return {
      pedigree,
      scores,
      posterior: valuesOverHeritability(scores, { prior: fishSizePrior }),
    };
  };

  const meritOf = async (tag: string): Promise<FishMerit> => {
    const { fish } = await api.graphql<{ fish: { merit: FishMerit[] } }>(
      `query ($id: ID!) { fish(id: $id) { merit { trait { id } value { ${VALUE} } lineMean
        expectedYoung { aboveLine giveOrTake } ownLooks scoredRelatives amongSibs { place of } inLine { place of } } } }`,
      { id: id(tag) },
    );
    expect(fish.merit).toHaveLength(1);
    return fish.merit[0]!;
  };

  it('a fish has the value, the error and the bands that the library gives it', async () => {
    const { pedigree, posterior } = engine();
    for (const tag of ['RED', 'A-1']) {
      const i = pedigree.indexOf(tag);
      const { value } = await meritOf(tag);
      expect(value?.kind).toBe('LINEAR');
      expect(value?.value).toBeCloseTo(posterior.value[i]!, 6);
      expect(value?.standardError).toBeCloseTo(posterior.standardError[i]!, 6);
      expect(value?.accuracy).toBeCloseTo(posterior.accuracy[i]!, 6);
      for (const { probability, low, high } of value?.bands ?? []) {
        const band = posterior.band(i, probability);
        expect(low).toBeCloseTo(band.low, 4);
        expect(high).toBeCloseTo(band.high, 4);
      }
    }
  });

  it('bands of all fish at once are those of one after the other', () => {
    const { posterior, pedigree } = engine();
    const [half] = bandsOfAll(posterior, [0.5]);
    for (let i = 0; i < pedigree.size; i++) {
      const band = posterior.band(i, 0.5);
      expect(half![i]!.low).toBeCloseTo(band.low, 4);
      expect(half![i]!.high).toBeCloseTo(band.high, 4);
    }
  });

  it('its young are told against the line, and its place among sibs', async () => {
    const { pedigree, posterior } = engine();
    const { value, lineMean, expectedYoung, scoredRelatives, amongSibs, ownLooks } =
      await meritOf('A-1');
    const all = [...posterior.value];
    const mean = all.reduce((sum, v) => sum + v, 0) / all.length;
    expect(lineMean).toBeCloseTo(mean, 6);
    expect(expectedYoung?.aboveLine).toBeCloseTo((value!.value - lineMean!) / 2, 9);
    const band = value!.bands.find(({ probability }) => probability === 0.8)!;
    expect(expectedYoung?.giveOrTake).toBeCloseTo((band.high - band.low) / 4, 9);
    expect({ scoredRelatives, ownLooks }).toEqual({ scoredRelatives: 15, ownLooks: 1 });
    const sibs = YOUNG.filter((tag) => tag.startsWith('A')).map((tag) => pedigree.indexOf(tag));
    const better = sibs.filter(
      (i) => posterior.value[i]! > posterior.value[pedigree.indexOf('A-1')]! + 1e-9,
    );
    expect(amongSibs?.of).toBe(8);
    expect(amongSibs?.place).toBeGreaterThan(better.length);
  });

  it('fish are listed by value, a page at a time', async () => {
    const list = async (after: string | null): Promise<Ranked> =>
      (
        await api.graphql<{ rankedFish: Ranked }>(
          `query ($traitId: ID!, $after: String) { rankedFish(traitId: $traitId, inUse: false, first: 10, after: $after) {
            totalCount pageInfo { hasNextPage endCursor } edges { cursor node { ${VALUE} ownLooks fish { id tag } } } } }`,
          { traitId, after },
        )
      ).rankedFish;
    const one = await list(null);
    const two = await list(one.pageInfo.endCursor);
    const rows = [...one.edges, ...two.edges].map(({ node }) => node);
    expect(one.totalCount).toBe(19);
    expect(two.pageInfo.hasNextPage).toBe(false);
    expect(new Set(rows.map(({ fish }) => fish.id)).size).toBe(19);
    const values = rows.map(({ value }) => value);
    expect(values).toEqual(values.toSorted((a, b) => b - a));
    expect(rows[0]?.fish.tag).toMatch(/^A-|^RED$/);
  });

  it('reasons add up to the value at the mean shares', async () => {
    const { meritReasons } = await api.graphql<{
      meritReasons: {
        value: number;
        fishCount: number;
        restContribution: number;
        reasons: { fish: { tag: string }; relationship: number; contribution: number }[];
      };
    }>(
      `query ($fishId: ID!, $traitId: ID!) { meritReasons(fishId: $fishId, traitId: $traitId) {
        value fishCount restContribution reasons { fish { tag } relationship weight looks contribution } } }`,
      { fishId: id('RED'), traitId },
    );
    const { scores, posterior, pedigree } = engine();
    const [h = 0, brood = 0] = posterior.meanShares;
    const animal = animalModel(scores);
    const ratios = [h, brood].map((share) => share / (1 - h - brood));
    const solved = solveAtRatios(animal, new Equations(animal.model), ratios);
    const at = solved.equations.termEquation[0]![pedigree.indexOf('RED')]!;
    expect(meritReasons.value).toBeCloseTo(solved.solution[at]!, 6);
    expect(meritReasons.fishCount).toBe(16);
    const own = meritReasons.reasons.find(({ fish }) => fish.tag === 'A-3');
    expect(own?.relationship).toBeCloseTo(0.5, 9);
  });

  it('a trend is that of the library by generation', async () => {
    const { traitTrend } = await api.graphql<{
      traitTrend: {
        generations: {
          generation: number;
          fish: number;
          scored: number;
          meanScore: number | null;
          meanValue: number;
          meanValueError: number;
          meanKinship: number;
        }[];
      };
    }>(
      `query ($traitId: ID!, $lineId: ID!) { traitTrend(traitId: $traitId, lineId: $lineId) {
        generations { generation fish scored meanScore meanValue meanValueError meanInbreeding meanKinship } } }`,
      { traitId, lineId },
    );
    const { scores, posterior, pedigree } = engine();
    const [h = 0, brood = 0] = posterior.meanShares;
    const animal = animalModel(scores);
    const ratios = [h, brood].map((share) => share / (1 - h - brood));
    const solved = solveAtRatios(animal, new Equations(animal.model), ratios);
    const score = Float64Array.from(pedigree.ids, (tag) => {
      const k = YOUNG.indexOf(tag);
      return k < 0 ? NaN : scoreOf(tag, k);
    });
    const { generations } = responseByGeneration(
      solved,
      generationDepth(pedigree),
      score,
      posterior.heritability.mean,
    );
    expect(traitTrend.generations).toHaveLength(2);
    generations.forEach((row, k) => {
      const shown = traitTrend.generations[k]!;
      expect(shown).toMatchObject({ fish: row.fish, scored: row.scored, meanScore: row.meanScore });
      expect(shown.meanValue).toBeCloseTo(row.meanBreedingValue, 6);
      expect(shown.meanValueError).toBeCloseTo(row.meanBreedingValueError, 6);
    });
    // Three founders: each half with itself, nothing with the others.
    expect(traitTrend.generations[0]?.meanKinship).toBeCloseTo(1 / 6, 9);
  });

  it('chance draws young that are not sorted, counts them as not selected, and can be taken back', async () => {
    const { drawForScoring } = await api.graphql<{ drawForScoring: Draw }>(
      `mutation ($input: DrawForScoringInput!) { drawForScoring(input: $input) { id revision drawnFrom fish { id } } }`,
      { input: { spawnId, number: 5 } },
    );
    const young = new Set(YOUNG.filter((tag) => tag.startsWith('A')).map(id));
    expect(drawForScoring.drawnFrom).toBe(8);
    expect(new Set(drawForScoring.fish.map((fish) => fish.id)).size).toBe(5);
    for (const fish of drawForScoring.fish) expect(young.has(fish.id)).toBe(true);
    const drawn = async (): Promise<number[]> => {
      const { spawn, traitMerit } = await api.graphql<{
        spawn: { scoringDraws: Draw[] };
        traitMerit: { selection: { broods: { tag: string; drawn: number }[] } };
      }>(
        `query ($id: ID!, $traitId: ID!) { spawn(id: $id) { scoringDraws { id } }
          traitMerit(traitId: $traitId) { selection { broods { tag drawn } } } }`,
        { id: spawnId, traitId },
      );
      return [
        spawn.scoringDraws.length,
        traitMerit.selection.broods.find(({ tag }) => tag === 'A')!.drawn,
      ];
    };
    expect(await drawn()).toEqual([1, 5]);
    await api.graphql(
      'mutation ($input: WithdrawInput!) { withdrawScoringDraw(input: $input) { id } }',
      {
        input: { id: drawForScoring.id, reason: 'Wrong brood.', revision: drawForScoring.revision },
      },
    );
    expect(await drawn()).toEqual([0, 0]);
  });
});

describe('a draw for scoring', () => {
  let api: RunningApi;
  let spawnId: string;
  const fish: { id: string; revision: number }[] = [];
  const DRAW =
    'mutation ($input: DrawForScoringInput!) { drawForScoring(input: $input) { id drawnFrom fish { id } } }';
  const draw = (number: number, further = true) =>
    api.send<{ drawForScoring: Pick<Draw, 'id' | 'drawnFrom' | 'fish'> }>(DRAW, {
      input: { spawnId, number, further },
    });
  const decide = (id: string, disposition: string) =>
    api.graphql('mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }', {
      input: { id, disposition, on: daysAgo(1) },
    });

  beforeAll(async () => {
    api = await startApi();
    const make = newRecords(api);
    spawnId = await make.createSpawn({ tag: 'S', hatchDate: daysAgo(100) });
    await make.addFishToSpawn({ spawnId, number: 8 });
    const { spawn } = await api.graphql<{ spawn: { fish: typeof fish } }>(
      'query ($id: ID!) { spawn(id: $id) { fish { id revision } } }',
      { id: spawnId },
    );
    fish.push(...spawn.fish);
  });
  afterAll(() => api.close());

  it('names no fish that stands in another, whoever draws at the same time', async () => {
    const drawn = await Promise.all([draw(3), draw(3)]);
    const ids = drawn.flatMap(({ data }) => data?.drawForScoring.fish.map(({ id }) => id) ?? []);
    expect(ids).toHaveLength(6);
    expect(new Set(ids).size).toBe(6);
    expect(drawn.map(({ data }) => data?.drawForScoring.drawnFrom).sort()).toEqual([5, 8]);
  });

  it('is the one that stands, for a second press and a second device, as long as no more is asked for', async () => {
    const { data: again } = await draw(3, false);
    const [one, two] = await Promise.all([draw(12, false), draw(1, false)]);
    expect(again?.drawForScoring.fish).toHaveLength(3);
    for (const { data } of [one, two]) expect(data?.drawForScoring).toEqual(again?.drawForScoring);
    const { spawn } = await api.graphql<{ spawn: { scoringDraws: Draw[] } }>(
      'query ($id: ID!) { spawn(id: $id) { scoringDraws { id } } }',
      { id: spawnId },
    );
    expect(spawn.scoringDraws).toHaveLength(2);
  });

  it('may follow when only drawn fish were decided about, and is refused when another was', async () => {
    const { spawn } = await api.graphql<{ spawn: { scoringDraws: Draw[] } }>(
      'query ($id: ID!) { spawn(id: $id) { scoringDraws { fish { id } } } }',
      { id: spawnId },
    );
    const drawn = new Set(spawn.scoringDraws.flatMap((one) => one.fish.map(({ id }) => id)));
    await decide([...drawn][0]!, 'KEEPER');
    const third = await draw(1);
    expect(third.data?.drawForScoring.fish).toHaveLength(1);
    drawn.add(third.data!.drawForScoring.fish[0]!.id);
    await decide(fish.find(({ id }) => !drawn.has(id))!.id, 'HOLD');
    // What was drawn stays when the rest is sorted.
    expect((await draw(1, false)).data?.drawForScoring.fish.length).toBeGreaterThan(0);
    const { errors } = await draw(1);
    expect(errors?.[0]?.extensions).toMatchObject({ code: 'SORTING_BEGUN', spawnId });
  });
});

describe('what inbreeding costs in a line', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ demo: true });
  });
  afterAll(() => api.close());

  it('is what the library says of the broods that are shown', async () => {
    const { lines } = await api.graphql<{ lines: { id: string; code: string }[] }>(
      '{ lines { id code } }',
    );
    let compared = 0;
    for (const { id } of lines) {
      const { lineInbreedingLoad } = await api.graphql<{
        lineInbreedingLoad: {
          stages: {
            stage: string;
            costs: { column: string; perGamete: number; low: number | null; verdict: string }[];
            refusal: { code: string } | null;
            points: { young: number; dam: number; survivors: number; counted: number }[];
          }[];
        };
      }>(
        `query ($lineId: ID!) { lineInbreedingLoad(lineId: $lineId) { stages { stage broods refusal { code message }
          costs { column perGamete low high smallestDetectable verdict costOfSibMating }
          points { young dam survivors counted } } } }`,
        { lineId: id },
      );
      expect(lineInbreedingLoad.stages.map(({ stage }) => stage)).toEqual([
        ...['HATCH', 'FREE_SWIMMING', 'SORTING', 'SOUND'],
      ]);
      for (const { costs, points, refusal } of lineInbreedingLoad.stages) {
        expect(costs.length === 0).toBe(refusal !== null);
        if (costs.length === 0) continue;
        const values = (of: 'young' | 'dam'): number[] => points.map((point) => point[of]);
        const { loads } = inbreedingLoad({
          survivors: points.map(({ survivors }) => survivors),
          counted: points.map(({ counted }) => counted),
          inbreeding: (['young', 'dam'] as const)
            .filter((of) => new Set(values(of)).size > 1)
            .map((name) => ({ name, values: values(name) })),
        });
        expect(costs.map(({ column }) => column)).toEqual(
          loads.map(({ name }) => name.toUpperCase()),
        );
        costs.forEach(({ perGamete }, k) => {
          expect(perGamete).toBeCloseTo(loads[k]!.perGamete, 6);
        });
        compared += 1;
        // One stage of a line is enough: the search takes its time.
        break;
      }
    }
    expect(compared).toBeGreaterThan(0);
  });

  interface Sizes {
    broods: number;
    changes: Change[];
    byAge: Change[];
    level: number | null;
    points: { spawnId: string; young: number; size: number; counted: number }[];
    refusal: { code: string } | null;
  }
  interface Change {
    column: string;
    atSibMating: number;
    low: number;
    high: number;
    smallest: number;
    verdict: string;
  }
  const CHANGE = '{ column atSibMating low high smallest verdict }';
  const CHANGES = `changes ${CHANGE} byAge ${CHANGE} level points { spawnId young size counted } refusal { code }`;

  it('in the number of eggs is what the library says of those broods', async () => {
    const { lines } = await api.graphql<{ lines: { id: string }[] }>('{ lines { id } }');
    let compared = 0;
    for (const { id: lineId } of lines) {
      const { lineInbreedingLoad: load } = await api.graphql<{
        lineInbreedingLoad: {
          broodSizes: (Sizes & { size: string })[];
          stages: {
            stage: string;
            points: { spawnId: string; young: number; dam: number; counted: number }[];
          }[];
        };
      }>(
        `query ($lineId: ID!) { lineInbreedingLoad(lineId: $lineId) {
          broodSizes { size broods ${CHANGES} } stages { stage points { spawnId young dam counted } } } }`,
        { lineId },
      );
      const [eggs] = load.broodSizes;
      const points = load.stages[0]!.points;
      if (eggs!.broods !== points.length || eggs!.changes.length === 0) continue;
      const dams: string[] = [];
      for (const { spawnId: spawn } of points) {
        const told = await api.graphql<{ spawn: { dam: { id: string } } }>(
          'query ($id: ID!) { spawn(id: $id) { dam { id } } }',
          { id: spawn },
        );
        dams.push(told.spawn.dam.id);
      }
      const seen = [...new Set(dams)];
      const level = Int32Array.from(dams, (dam) => seen.indexOf(dam));
      const found = inbreedingOfMeasure({
        name: 'eggs',
        values: Float64Array.from(points, ({ counted }) => Math.log(counted)),
        inbreeding: (['young', 'dam'] as const).map((name) => ({
          name,
          values: Float64Array.from(points, (point) => point[name]),
        })),
        random:
          seen.length < dams.length
            ? [{ name: 'dam', levels: seen.length, slots: [{ trait: 0, level }] }]
            : [],
        broods: points.length,
      });
      found.changes.forEach(({ slope, interval, verdict }, k) => {
        const shown = eggs!.changes[k]!;
        expect(shown.atSibMating).toBeCloseTo(Math.exp(slope / 4) - 1, 6);
        expect(shown.low).toBeCloseTo(Math.exp(interval.low / 4) - 1, 6);
        expect(shown.high).toBeCloseTo(Math.exp(interval.high / 4) - 1, 6);
        expect(shown.verdict).toBe(verdict.toUpperCase().replaceAll(' ', '_'));
      });
      expect(eggs!.level).toBeCloseTo(Math.exp(found.level), 4);
      eggs!.points.forEach(({ spawnId: spawn, size, young }, k) => {
        expect([spawn, young]).toEqual([points[k]!.spawnId, points[k]!.young]);
        expect(size).toBeCloseTo(Math.exp(found.corrected[k]!), 4);
      });
      compared += 1;
    }
    expect(compared).toBeGreaterThan(0);
  });

  it('in sizes parts recent from old inbreeding as in survival', async () => {
    const { lines, traits } = await api.graphql<{
      lines: { id: string }[];
      traits: { id: string; name: string }[];
    }>('{ lines { id } traits { id name } }');
    const length = traits.find(({ name }) => name === 'Body length')!.id;
    const told = { broods: 0, fish: 0 };
    for (const { id: lineId } of lines) {
      const { lineInbreedingLoad, traitInbreedingLoad } = await api.graphql<{
        lineInbreedingLoad: { broodSizes: Sizes[] };
        traitInbreedingLoad: Sizes & { fish: number };
      }>(
        `query ($lineId: ID!, $traitId: ID!) {
          lineInbreedingLoad(lineId: $lineId) { broodSizes { broods ${CHANGES} } }
          traitInbreedingLoad(lineId: $lineId, traitId: $traitId) { fish broods ${CHANGES} } }`,
        { lineId, traitId: length },
      );
      for (const { byAge } of lineInbreedingLoad.broodSizes) {
        if (byAge.length === 0) continue;
        expect(byAge.slice(0, 2).map(({ column }) => column)).toEqual(['RECENT', 'OLD']);
        for (const { low, atSibMating, high } of byAge)
          expect(low < atSibMating && atSibMating < high).toBe(true);
        told.broods += 1;
      }
      if (traitInbreedingLoad.byAge.length === 0) continue;
      told.fish += 1;
      const { points, broods, fish, level } = traitInbreedingLoad;
      expect(points).toHaveLength(broods);
      expect(points.reduce((sum, { counted }) => sum + counted, 0)).toBe(fish);
      // Lengths in mm, of broods that differ by less than half of what they are.
      for (const { size } of points) expect(Math.abs(size / level! - 1)).toBeLessThan(0.5);
    }
    expect(Math.min(told.broods, told.fish)).toBeGreaterThan(0);
  });

  it('in a measured trait is told with its interval, and of no other kind of trait', async () => {
    const { lines, traits } = await api.graphql<{
      lines: { id: string }[];
      traits: { id: string; kind: string; name: string }[];
    }>('{ lines { id } traits { id kind name } }');
    const ask = (traitId: string, lineId: string) =>
      api.send<{ traitInbreedingLoad: Sizes & { fish: number } }>(
        `query ($traitId: ID!, $lineId: ID!) { traitInbreedingLoad(traitId: $traitId, lineId: $lineId) { fish broods ${CHANGES} } }`,
        { traitId, lineId },
      );
    const length = traits.find(({ name }) => name === 'Body length')!;
    let told = 0;
    for (const { id } of lines) {
      const { data } = await ask(length.id, id);
      const { changes, refusal, broods, fish } = data!.traitInbreedingLoad;
      expect(changes.length === 0).toBe(refusal !== null);
      for (const { low, high, atSibMating, smallest, verdict } of changes) {
        expect(low < atSibMating && atSibMating < high && smallest > 0).toBe(true);
        expect(verdict === 'CANNOT_TELL_YET').toBe(low <= 0 && high >= 0);
        expect(broods).toBeGreaterThan(3);
        expect(fish).toBeGreaterThanOrEqual(broods);
        told += 1;
      }
    }
    expect(told).toBeGreaterThan(0);
    const graded = traits.find(({ kind }) => kind === 'ORDINAL')!;
    const { errors } = await ask(graded.id, lines[0]!.id);
    expect(errors?.[0]?.extensions.code).toBe('VALIDATION');
  });
});

describe('the caution of chosen scores', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ demo: true });
  });
  afterAll(() => api.close());

  it('is the same on the trait, on a fish and on the trend', async () => {
    const { traits, lines, fishList } = await api.graphql<{
      traits: { id: string; name: string }[];
      lines: { id: string }[];
      fishList: { edges: { node: { id: string } }[] };
    }>('{ traits { id name } lines { id } fishList(first: 1) { edges { node { id } } } }');
    const traitId = traits.find(({ name }) => name === 'Body length')!.id;
    const told = await api.graphql<{
      traitMerit: { selection: { message: string | null } };
      traitTrend: { selectionCaution: string | null };
      fish: { merit: { trait: { id: string }; selectionCaution: string | null }[] };
    }>(
      `query ($traitId: ID!, $lineId: ID!, $fishId: ID!) {
        traitMerit(traitId: $traitId) { selection { message } }
        traitTrend(traitId: $traitId, lineId: $lineId) { selectionCaution }
        fish(id: $fishId) { merit { trait { id } selectionCaution } } }`,
      { traitId, lineId: lines[0]!.id, fishId: fishList.edges[0]!.node.id },
    );
    const { message } = told.traitMerit.selection;
    expect(message).toMatch(/of values said to hold in 95 of 100 cases held in 74 to 89/);
    expect(told.traitTrend.selectionCaution).toBe(message);
    const ofFish = told.fish.merit.find(({ trait }) => trait.id === traitId)!;
    expect(ofFish.selectionCaution).toBe(message);
  });
});
