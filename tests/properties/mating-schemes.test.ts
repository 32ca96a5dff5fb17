import type { Genotype } from '@linewright/heredity';
import {
  backToParentRoute,
  Draws,
  FishJudge,
  MatingError,
  outcrossRoute,
  possibleRoutes,
  RouteSearch,
  RouteTally,
  runRoute,
  siblingRoute,
  SimulatedLine,
  twoSubLinesRoute,
  type Route,
} from '@linewright/mating';
import { describe, expect, it } from 'vitest';
import { beliefOf, recessive, showing } from '../made-belief.js';

const lengths = { generations: 6, parentGenerations: 6 };
const never = { share: 1, ceiling: 1 };

/** F of the broods of a route that never ends early, generation by generation. */
function inbreedingOf(route: Route, fish = 4): number[] {
  const line = new SimulatedLine(beliefOf({ fish, loci: [[recessive('a'), 'A/A']] }));
  const judge = new FishJudge(line, { traits: [], looks: [showing('a', { required: true })] });
  return route.steps.map((_, k) => {
    const short = { ...route, steps: route.steps.slice(0, k + 1) };
    return runRoute(line, judge, short, never, { fryPerBrood: 20, draws: new Draws(3) }).inbreeding;
  });
}

describe('F along a route', () => {
  it('brother to sister, after a first cross of unrelated fish', () => {
    expect(inbreedingOf(siblingRoute(0, 1, lengths))).toEqual([
      0,
      1 / 4,
      3 / 8,
      1 / 2,
      19 / 32,
      43 / 64,
    ]);
  });

  it.each(['sire', 'dam'] as const)('back to the %s', (parent) => {
    const route = backToParentRoute(0, 1, parent, lengths);
    expect(inbreedingOf(route)).toEqual([0, 1 / 4, 3 / 8, 7 / 16, 15 / 32, 31 / 64]);
  });

  it('turns from the parent to sibs when the parent is too old', () => {
    const route = backToParentRoute(0, 1, 'sire', { generations: 4, parentGenerations: 2 });
    expect(route.steps[2]!.broods[0]!.sire).toEqual({ kind: 'best', step: 1, brood: 0 });
    // Sibs of father and daughter: a quarter of 1/2 (he himself), 1/2 (she) and twice the 1/4 between the two.
    expect(inbreedingOf(route)).toEqual([0, 1 / 4, 3 / 8, 1 / 2]);
  });

  it('is 0 again where two unrelated sub-lines meet', () => {
    const route = twoSubLinesRoute([[0, 1], [2, 3]], 3, lengths); // prettier-ignore
    expect(inbreedingOf(route).slice(0, 4)).toEqual([0, 1 / 4, 3 / 8, 0]);
  });

  it('of an outcross put back to another fish of the line', () => {
    const isMale = (at: number): boolean => at % 2 === 0;
    const route = outcrossRoute({ line: 0, other: 1, back: 3 }, isMale, lengths);
    expect(inbreedingOf(route).slice(0, 3)).toEqual([0, 0, 1 / 4]);
  });
});

/** Chance that a route reaches its goal, with its figures. */
function figures(
  route: Route,
  genotypes: readonly string[],
  options: { share: number; fry: number; worth: number; n: number },
) {
  const belief = beliefOf({ fish: genotypes.length, loci: [[recessive('a'), ...genotypes]] });
  const line = new SimulatedLine(belief);
  const look = showing('a', { required: true, worth: options.worth });
  const judge = new FishJudge(line, { traits: [], looks: [look] });
  const tally = new RouteTally(route.steps.length);
  for (let k = 0; k < options.n; k++) {
    const draws = new Draws(11 + 7919 * k);
    const goal = { share: options.share, ceiling: 1 };
    tally.add(runRoute(line, judge, route, goal, { fryPerBrood: options.fry, draws }));
  }
  return tally.figures();
}

const near = (value: number, exact: number, n: number): void => {
  const error = Math.sqrt((exact * (1 - exact)) / n);
  expect(Math.abs(value - exact)).toBeLessThan(4 * error + 1e-12);
};

describe('chances that can be worked out by hand', () => {
  it.each([1, 4, 9, 16])('at least one recessive among %i young of two carriers', (fry) => {
    const route = siblingRoute(0, 1, { generations: 1, parentGenerations: 1 });
    const { chance } = figures(route, ['A/a', 'A/a'], { share: 1 / fry, fry, worth: 0, n: 8_000 });
    near(chance, 1 - (3 / 4) ** fry, 8_000);
  });

  it.each([16, 24, 40])(
    'a recessive fixed from a cross in three generations, %i young a brood',
    (fry) => {
      // The first brood carries; in the second a male and a female that show it are needed; their young all show it.
      const route = siblingRoute(0, 1, { generations: 3, parentGenerations: 1 });
      const { byGeneration } = figures(route, ['a/a', 'A/A'], {
        share: 1,
        fry,
        worth: 1,
        n: 6_000,
      });
      expect(byGeneration.slice(0, 1)).toEqual([0]);
      const bothShow = 1 - 2 * (7 / 8) ** fry + (6 / 8) ** fry;
      near(byGeneration[2]!, bothShow, 6_000);
    },
  );

  it('a recessive fixed by sib mating without choice: the chain of the six kinds of pairs', () => {
    const route = siblingRoute(0, 1, { generations: 6, parentGenerations: 1 });
    const n = 12_000;
    const { byGeneration } = figures(route, ['A/a', 'A/a'], { share: 1, fry: 60, worth: 0, n });
    byGeneration.forEach((chance, k) => near(chance, fixedAfter(k), n));
  });
});

/** Chance that after `generations` of sib mating from two carriers both of the pair are recessive, by the exact chain of pairs. */
function fixedAfter(generations: number): number {
  let pairs = new Map([['1,1', 1]]);
  for (let t = 0; t < generations; t++) {
    const next = new Map<string, number>();
    for (const [key, chance] of pairs) {
      const [sire, dam] = key.split(',').map((copies) => Number(copies) / 2) as [number, number];
      const young = [(1 - sire) * (1 - dam), sire + dam - 2 * sire * dam, sire * dam];
      young.forEach((a, i) =>
        young.forEach((b, j) => {
          const to = `${String(i)},${String(j)}`;
          next.set(to, (next.get(to) ?? 0) + chance * a * b);
        }),
      );
    }
    pairs = next;
  }
  return pairs.get('2,2') ?? 0;
}

describe('young that die of their genotype', () => {
  it('are not raised, and told', () => {
    const lethal = {
      ...recessive('a'),
      viability: [{ genotype: 'a/a', survival: '0', why: 'made up' }],
    };
    const line = new SimulatedLine(beliefOf({ fish: 2, loci: [[lethal, 'A/a', 'A/a']] }));
    line.begin(new Draws(5));
    const { first, count, lost } = line.spawn(0, 1, 4_000);
    const doubles = Array.from({ length: count }, (_, k) => line.copies(first + k, 0, 1)).filter(
      (one) => one === 2,
    );
    expect(doubles).toEqual([]);
    near(lost / (count + lost), 1 / 4, count + lost);
  });
});

describe('what the actual fish are', () => {
  it('is drawn from their joint chances', () => {
    const locus = recessive('a');
    const [carrier, clean]: [Genotype, Genotype] = [['A', 'a'], ['A', 'A']]; // prettier-ignore
    const belief = {
      ...beliefOf({ fish: 2 }),
      // One of the two carries, and nobody knows which.
      loci: [{ locus, groups: [{ fish: [0, 1], outcomes: [
        { genotypes: [carrier, clean], probability: 0.5 }, { genotypes: [clean, carrier], probability: 0.5 },
      ] }] }], // prettier-ignore
    };
    const line = new SimulatedLine(belief);
    let first = 0;
    for (let k = 0; k < 2_000; k++) {
      line.begin(new Draws(k));
      expect(line.copies(0, 0, 1) + line.copies(1, 0, 1)).toBe(1);
      first += line.copies(0, 0, 1);
    }
    near(first / 2_000, 0.5, 2_000);
  });

  it('keeps the errors of relatives together', () => {
    const trait = {
      traitId: 't',
      level: 10,
      value: Float64Array.from([1, 2]),
      error: Float64Array.from([4, 3, 3, 4]),
      additive: 4,
      commonBrood: 0,
      residual: 1,
    };
    const line = new SimulatedLine({ ...beliefOf({ fish: 2 }), traits: [trait] });
    let [sum, square, product] = [0, 0, 0];
    const n = 20_000;
    for (let k = 0; k < n; k++) {
      line.begin(new Draws(k));
      const [a, b] = [line.value[0]! - 1, line.value[1]! - 2];
      [sum, square, product] = [sum + a, square + a * a, product + a * b];
    }
    // Standard errors of moments of a normal: sd / sqrt(n), var sqrt(2 / n), sqrt((1 + r^2) var var / n).
    expect(Math.abs(sum / n)).toBeLessThan(4 * Math.sqrt(4 / n));
    expect(Math.abs(square / n - 4)).toBeLessThan(4 * 4 * Math.sqrt(2 / n));
    expect(Math.abs(product / n - 3)).toBeLessThan(4 * 4 * Math.sqrt((1 + 0.75 ** 2) / n));
  });

  it('is refused where it does not fit together', () => {
    const belief = beliefOf({ fish: 2, loci: [[recessive('a'), 'A/A']] });
    expect(() => new SimulatedLine({ ...belief, sex: ['male'] })).toThrow(MatingError);
    const trait = {
      traitId: 't',
      level: 0,
      value: new Float64Array(2),
      error: Float64Array.from([1, 3, 3, 1]),
      additive: 1,
      commonBrood: 0,
      residual: 1,
    };
    expect(() => new SimulatedLine({ ...belief, traits: [trait] })).toThrow('cannot be');
  });
});

describe('the search', () => {
  const carriers = beliefOf({
    fish: 6,
    loci: [[recessive('a'), 'A/a', 'A/a', 'A/A', 'A/A', 'a/a', 'A/A']],
  });
  const purpose = { traits: [], looks: [showing('a', { required: true, worth: 1 })], ceiling: 1 };
  const { routes, pairs, pairsTried } = possibleRoutes({
    belief: carriers, purpose, ofLine: [1, 1, 1, 1, 0, 0], lengths: { generations: 4, parentGenerations: 2 }, broods: 2, seed: 1,
  }); // prettier-ignore
  const input = {
    belief: carriers,
    purpose,
    goal: { share: 0.9, ceiling: 1 },
    fryPerBrood: 20,
    seed: 4,
    most: 200,
  };
  const whole = (batch: number) => {
    const search = new RouteSearch(input, routes);
    const shares = [search.progress];
    while (search.advance(batch)) shares.push(search.progress);
    return { shares, standing: search.standing() };
  };

  it('makes routes of all kinds and tells how many pairs there are', () => {
    expect(new Set(routes.map(({ scheme }) => scheme)).size).toBe(5);
    expect([pairs, pairsTried]).toEqual([4, 4]);
  });

  it('gives the same answer for the same seed, whatever the pieces', () => {
    expect(whole(3).standing).toEqual(whole(16).standing);
  });

  it('tells all routes, those dropped early behind the others', () => {
    const { standing, shares } = whole(16);
    expect(standing).toHaveLength(routes.length);
    const kept = standing.filter(({ droppedAfter }) => droppedAfter === null);
    expect(standing.slice(0, kept.length)).toEqual(kept);
    expect(kept.every(({ simulations }) => simulations === 200)).toBe(true);
    expect(standing.some(({ droppedAfter }) => droppedAfter !== null)).toBe(true);
    expect(shares.at(-1)).toBe(1);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  });

  it('puts the pair that carries what is wanted above the pair that does not', () => {
    const { standing } = whole(16);
    expect(standing[0]!.chance).toBeGreaterThan(0.5);
    const hopeless = standing.find(
      ({ route }) => route.scheme === 'siblings' && route.fish.join() === '2,3',
    );
    expect(hopeless?.chance).toBe(0);
    expect(hopeless!.high).toBeGreaterThan(0);
  });

  it('ends a route whose broods would pass the ceiling, and says so', () => {
    const search = new RouteSearch({ ...input, goal: { share: 0.9, ceiling: 0.1 } }, [
      siblingRoute(2, 3, lengths),
    ]);
    search.advance();
    const [{ endedByCeiling, chance } = { endedByCeiling: NaN, chance: NaN }] = search.standing();
    expect([endedByCeiling, chance]).toEqual([1, 0]);
  });

  it('refuses what cannot be', () => {
    expect(() => new RouteSearch({ ...input, goal: { share: 0, ceiling: 1 } }, routes)).toThrow(
      'share 0',
    );
    const looks = [showing('nothing', { required: true })];
    expect(() => new RouteSearch({ ...input, purpose: { traits: [], looks } }, routes)).toThrow(
      'nothing',
    );
  });
});
