import { inbreedingFromDrift } from '@linewright/kinship';
import {
  bestByBest,
  byChance,
  Draws,
  fanOf,
  FishJudge,
  Forecast,
  leastRelated,
  LineCourse,
  planned,
  RunningValues,
  SimulatedLine,
  type ForecastInput,
  type LineBelief,
  type Strategy,
} from '@linewright/mating';
import { describe, expect, it } from 'vitest';
import { beliefOf, recessive, showing } from '../made-belief.js';

const trait = (
  fish: number,
  { additive = 40, residual = 60, commonBrood = 0, error = 0 } = {},
) => ({
  traitId: 't',
  level: 100,
  value: new Float64Array(fish),
  error: Float64Array.from({ length: fish ** 2 }, (_, k) => (k % (fish + 1) === 0 ? error : 0)),
  additive,
  commonBrood,
  residual,
});
const higher = {
  traits: [{ traitId: 't', better: 'higher', low: null, high: null, worth: 1 }],
  looks: [],
} as const;
const settings = {
  broods: 4,
  broodsPerFish: 4,
  fryPerBrood: 16,
  keptPerBrood: 2,
  kinshipRise: 0.05,
};

const withTrait = (fish: number, parts = {}): LineBelief => ({
  ...beliefOf({ fish }),
  traits: [trait(fish, parts)],
});

const forecastOf = (
  input: Partial<ForecastInput> & { strategy: () => Strategy },
  lines: number,
) => {
  const forecast = new Forecast({
    belief: withTrait(8, { error: 40 }),
    purpose: higher,
    ...settings,
    alleles: [],
    generations: 5,
    seed: 1,
    ...input,
  });
  forecast.advance(lines);
  return forecast.standing();
};

describe('F by drift', () => {
  it('follows the exact recurrence for two sexes, and 1 - (1 - 1/2Ne)^t within what that leaves out', () => {
    const [each, generations, lines] = [5, 8, 600];
    const line = new SimulatedLine(beliefOf({ fish: 2 * each }));
    const found = Array.from({ length: generations + 1 }, () => [] as number[]);
    for (let k = 0; k < lines; k++) {
      const draws = new Draws(k);
      line.begin(draws);
      let males = Array.from({ length: each }, (_, i) => 2 * i);
      let females = males.map((one) => one + 1);
      for (let g = 1; g <= generations; g++) {
        const [sons, daughters]: [number[], number[]] = [[], []];
        const inbreeding: number[] = [];
        // Each young has parents of its own, drawn anew: the ideal population of the textbooks.
        while (sons.length < each || daughters.length < each) {
          const { first, inbreeding: f } = line.spawn(
            males[draws.below(each)]!,
            females[draws.below(each)]!,
            1,
          );
          inbreeding.push(f);
          (line.male[first] === 1 ? sons : daughters).push(first);
        }
        [males, females] = [sons.slice(0, each), daughters.slice(0, each)];
        found[g]!.push(inbreeding.reduce((sum, f) => sum + f, 0) / inbreeding.length);
      }
    }
    // Coancestry of two different young, F of a young: t' = t + ((1 + F) / 2 - t) / Ne, F' = t, with 1/Ne = (1/M + 1/F) / 4.
    const size = (4 * each * each) / (2 * each);
    let [coancestry, inbred] = [0, 0];
    for (let g = 1; g <= generations; g++) {
      const next = coancestry + ((1 + inbred) / 2 - coancestry) / size;
      [coancestry, inbred] = [next, coancestry];
      const { mean, standardError } = fanOf(found[g]!);
      expect(Math.abs(mean - inbred), `generation ${g}`).toBeLessThan(4 * standardError + 1e-12);
      // No parent is both: the formula of one sex runs ahead by about a generation.
      expect(inbred).toBeLessThanOrEqual(inbreedingFromDrift(size, g) + 1e-12);
      if (g > 1) expect(inbred).toBeGreaterThanOrEqual(inbreedingFromDrift(size, g - 1) * 0.85);
    }
  });
});

describe('response to choice', () => {
  it('is heritability times the selection differential', () => {
    const line = new SimulatedLine(withTrait(60, { error: 40 }));
    const judge = new FishJudge(line, higher);
    let [differential, response, square] = [0, 0, 0];
    const lines = 400;
    for (let k = 0; k < lines; k++) {
      line.begin(new Draws(k));
      // Unrelated fish, scored; the best 5 of 30 of each sex, and 5 broods of 40.
      const best = (male: 0 | 1) => Array.from({ length: 60 }, (_, i) => i).filter((i) => line.male[i] === male)
        .sort((a, b) => judge.points(b) - judge.points(a)).slice(0, 5); // prettier-ignore
      const [sires, dams] = [best(1), best(0)];
      const mean = (fish: readonly number[]): number =>
        fish.reduce((sum, one) => sum + line.score[one]!, 0) / fish.length;
      const all = mean(Array.from({ length: 60 }, (_, i) => i));
      const chosen = mean([...sires, ...dams]) - all;
      const young = sires.flatMap((sire, i) => { const { first, count } = line.spawn(sire, dams[i]!, 40); return Array.from({ length: count }, (_, j) => first + j); }); // prettier-ignore
      const gained = mean(young) - all;
      [differential, response, square] = [
        differential + chosen,
        response + gained,
        square + (gained - 0.4 * chosen) ** 2,
      ];
    }
    const error = Math.sqrt(square / lines / lines);
    expect(differential / lines).toBeGreaterThan(10);
    expect(Math.abs(response / lines - (0.4 * differential) / lines)).toBeLessThan(4 * error);
  });

  it('estimates of a keeper regress true values with a slope of nearly one, and beat the score', () => {
    const line = new SimulatedLine(withTrait(8, { error: 40, commonBrood: 5 }));
    const judge = new FishJudge(line, higher);
    let [xy, xx, yy, ss, sy] = [0, 0, 0, 0, 0];
    for (let k = 0; k < 1_500; k++) {
      const values = new RunningValues(line);
      const course = new LineCourse(line, judge, settings, new Draws(k), values);
      for (let g = 0; g < 2; g++) course.next(byChance);
      for (const one of course.fish) {
        const [x, y, s] = [values.of(one, 0), line.value[one]!, line.score[one]! - 100];
        [xy, xx, yy, ss, sy] = [xy + x * y, xx + x * x, yy + y * y, ss + s * s, sy + s * y];
      }
    }
    // 1.04 over 24,000 lines: errors of related broods are taken as independent, so that differences are told a little too small.
    expect(Math.abs(xy / xx - 1)).toBeLessThan(0.08);
    expect(xy / Math.sqrt(xx * yy)).toBeGreaterThan(sy / Math.sqrt(ss * yy));
  });
});

describe('a forecast', () => {
  it('starts from what is believed, with its doubt', () => {
    const belief = withTrait(8, { error: 40 });
    const [first] = forecastOf({ belief, strategy: () => byChance }, 600).generations;
    const { mean, standardError, bands } = first!.traits[0]!.mean;
    expect(Math.abs(mean - 100)).toBeLessThan(4 * standardError);
    // The mean of eight independent errors: 8 of 10 lie within 1.2816 standard deviations.
    const reach = 1.2816 * Math.sqrt(40 / 8);
    expect(Math.abs((bands[1]!.high - bands[1]!.low) / 2 - reach)).toBeLessThan(0.12 * reach);
    expect(first!.inbreeding.mean).toBe(0);
    expect(first!.kinship.mean).toBeCloseTo(1 / 16, 12);
  });

  it('is the same for the same seed, in whatever pieces', () => {
    const of = (pieces: readonly number[]) => {
      const forecast = new Forecast({
        belief: withTrait(8, { error: 40 }),
        purpose: higher,
        ...settings,
        alleles: [],
        generations: 3,
        seed: 9,
        strategy: () => planned,
      });
      pieces.forEach((lines) => forecast.advance(lines));
      return forecast.standing();
    };
    expect(of([7, 13])).toEqual(of([20]));
  });

  it('under the plan gains less than best by best at first and keeps kinship lower', () => {
    const [plan, best] = [planned, bestByBest].map((strategy) =>
      forecastOf({ strategy: () => strategy, kinshipRise: 0.03 }, 200),
    );
    const last = (forecast: typeof plan) => forecast!.generations.at(-1)!;
    expect(last(plan).kinship.mean).toBeLessThan(last(best).kinship.mean - 0.02);
    expect(plan!.effectiveSize!.median).toBeGreaterThan(best!.effectiveSize!.median);
    expect(last(plan).traits[0]!.mean.mean).toBeGreaterThan(100);
  });

  it('by chance does not move a trait', () => {
    const { generations } = forecastOf({ strategy: () => byChance }, 600);
    generations.forEach(({ traits }) => {
      const { mean, standardError } = traits[0]!.mean;
      expect(Math.abs(mean - 100)).toBeLessThan(4 * standardError);
    });
  });

  it('keeps F and kinship as low as can be with the least related', () => {
    const [least, chance] = [leastRelated, byChance].map((strategy) =>
      forecastOf({ strategy: () => strategy }, 200).generations.at(-1)!,
    );
    expect(least!.inbreeding.mean).toBeLessThan(chance!.inbreeding.mean);
  });

  it('tells the chance that an allele is still there: one carrier, one generation, by the binomial', () => {
    // One of eight fish carries; two broods by chance of four males and four females: it is a parent with chance 1/2.
    const belief = beliefOf({
      fish: 8,
      loci: [[recessive('a'), 'A/a', ...Array.from({ length: 7 }, () => 'A/A')]],
    });
    const n = 4_000;
    const [first, second] = forecastOf({
      belief, purpose: { traits: [], looks: [showing('a')] }, strategy: () => byChance, broods: 2, fryPerBrood: 3,
      alleles: [{ locusId: 'a', alleleId: 'a' }], generations: 1,
    }, n).generations; // prettier-ignore
    expect(first!.alleles[0]!.stillThere).toBe(1);
    expect(first!.alleles[0]!.frequency.mean).toBe(1 / 16);
    const exact = 0.5 * (1 - 0.5 ** 3);
    expect(Math.abs(second!.alleles[0]!.stillThere - exact)).toBeLessThan(
      4 * Math.sqrt((exact * (1 - exact)) / n),
    );
  });

  it('refuses what cannot be', () => {
    expect(() => forecastOf({ strategy: () => planned, generations: 0 }, 1)).toThrow(
      'generations 0',
    );
    const males = { ...withTrait(2), sex: ['male', 'male'] as const };
    expect(() => forecastOf({ strategy: () => planned, belief: males }, 1)).toThrow('no female');
    const alleles = [{ locusId: 'a', alleleId: 'x' }];
    expect(() => forecastOf({ strategy: () => planned, alleles }, 1)).toThrow('a x');
  });
});
