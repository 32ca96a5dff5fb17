/** The set of pairs on small random pedigrees against every choice there is. */
import { coancestryBlock } from '@linewright/kinship';
import {
  bestContributions,
  type ContributionProblem,
  leastCoancestry,
  MatingError,
  PairChooser,
  type PairProblem,
  type PairWishes,
} from '@linewright/mating';
import { buildPedigree, type ParentageRecord } from '@linewright/pedigree';
import fc from 'fast-check';
import loadHighs from 'highs';
import { describe, expect, it } from 'vitest';

const SEED = 20261126;
const runs = (numRuns: number): fc.Parameters<unknown> => ({ seed: SEED, numRuns });
const highs = await (loadHighs as unknown as typeof import('highs').default)();

interface Case {
  readonly problem: PairProblem;
  readonly wishes: PairWishes;
  /** Where between the least and the greatest c'Kc the limit stands. */
  readonly at: number;
}

const MALES = 3;
const FEMALES = 4;

const caseOf = fc
  .record({
    parents: fc.array(fc.tuple(fc.nat(20), fc.nat(20)), { minLength: 12, maxLength: 12 }),
    // Whole numbers make ties; NaN, a pair that cannot be made.
    worth: fc.array(fc.oneof(fc.integer({ min: -4, max: 9 }), fc.constant(NaN)), {
      minLength: MALES * FEMALES,
      maxLength: MALES * FEMALES,
    }),
    broods: fc.integer({ min: 1, max: 4 }),
    mostPerFish: fc.integer({ min: 1, max: 3 }),
    ceiling: fc.constantFrom(1, 0.3, 0.2),
    at: fc.double({ min: -0.2, max: 1.1, noNaN: true }),
    must: fc.option(fc.nat(MALES + FEMALES - 1), { nil: null }),
    mustNot: fc.option(fc.nat(MALES + FEMALES - 1), { nil: null }),
    not: fc.option(fc.tuple(fc.nat(MALES - 1), fc.nat(FEMALES - 1)), { nil: null }),
    pair: fc.option(fc.tuple(fc.nat(MALES - 1), fc.nat(FEMALES - 1)), { nil: null }),
    standing: fc.uniqueArray(fc.tuple(fc.nat(MALES - 1), fc.nat(FEMALES - 1)), {
      ...{ selector: String, maxLength: 2 },
    }),
  })
  .map((given): Case => {
    const records = given.parents.map(([sire, dam], i): ParentageRecord => {
      const pick = (n: number, sex: number): string | null => {
        const fit = Array.from({ length: i }, (_, k) => k).filter((k) => k % 2 === sex);
        return i < 4 ? null : `f${fit[n % fit.length]!}`;
      };
      return { id: `f${i}`, sire: pick(sire, 0), dam: pick(dam, 1) };
    });
    const pedigree = buildPedigree(records);
    const males = ['f6', 'f8', 'f10'];
    const females = ['f5', 'f7', 'f9', 'f11'];
    const places = [...males, ...females].map((id) => pedigree.indexOf(id));
    return {
      at: given.at,
      problem: {
        males,
        females,
        worth: Float64Array.from(given.worth),
        coancestry: coancestryBlock(pedigree, places, places),
        broods: given.broods,
        mostPerFish: given.mostPerFish,
        ceiling: given.ceiling,
        standing: given.standing,
      },
      wishes: {
        mustFish: given.must === null ? [] : [given.must],
        mustNotFish: given.mustNot === null || given.mustNot === given.must ? [] : [given.mustNot],
        mustPairs: given.pair === null ? [] : [given.pair],
        mustNotPairs:
          given.not === null || String(given.not) === String(given.pair) ? [] : [given.not],
      },
    };
  });

/** 40 by 40 candidates of twelve families, whose pairs are worth what both fish are worth. */
function manyCandidates(): { problem: PairProblem; males: number[]; females: number[] } {
  const records: ParentageRecord[] = Array.from({ length: 12 }, (_, k) => ({ id: `p${k}` }));
  for (let k = 0; k < 80; k++) {
    const family = Math.floor(k / 7);
    records.push({ id: `c${k}`, sire: `p${family % 6}`, dam: `p${6 + ((family * 5) % 6)}` });
  }
  const pedigree = buildPedigree(records);
  const of = (sex: number): string[] => Array.from({ length: 40 }, (_, k) => `c${2 * k + sex}`);
  const ids = [...of(0), ...of(1)];
  const places = ids.map((id) => pedigree.indexOf(id));
  const worthOf = (k: number): number => 5 + 2 * Math.sin(k * 12.9898) + Math.sin(k * 78.233);
  const [males, females] = [0, 40].map((from) =>
    Array.from({ length: 40 }, (_, k) => worthOf(from + k)),
  ) as [number[], number[]];
  const worth = Float64Array.from(
    { length: 1600 },
    (_, k) => males[Math.floor(k / 40)]! + females[k % 40]!,
  );
  const coancestry = coancestryBlock(pedigree, places, places);
  const problem = { males: of(0), females: of(1), worth, coancestry, broods: 12, mostPerFish: 3 };
  return { problem, males, females };
}

interface Choice {
  readonly worth: number;
  readonly coancestry: number;
}

/** Every choice of so many pairs that keeps to what was asked for, by trying all subsets of the table. */
function everyChoice({ problem, wishes }: Case): Choice[] {
  const { worth, coancestry, broods, mostPerFish, ceiling = 1, standing = [] } = problem;
  const size = MALES + FEMALES;
  const used = countsOf(standing);
  const stands = standing.map(([m, f]) => m * FEMALES + f);
  const shut = new Set(wishes.mustNotFish);
  const is = (pairs: PairWishes['mustPairs'], m: number, f: number): boolean =>
    pairs!.some(([a, b]) => a === m && b === f);
  const choices: Choice[] = [];
  for (let bits = 0; bits < 1 << (MALES * FEMALES); bits++) {
    const cells = Array.from({ length: MALES * FEMALES }, (_, k) => k).filter(
      (k) => bits & (1 << k),
    );
    if (cells.length !== broods || cells.some((cell) => stands.includes(cell))) continue;
    const pairs = cells.map((k) => [Math.floor(k / FEMALES), k % FEMALES] as const);
    const count = countsOf([...pairs, ...standing]);
    const allowed = pairs.every(
      ([m, f], i) =>
        !Number.isNaN(worth[cells[i]!]!) &&
        coancestry[m * size + MALES + f]! <= ceiling &&
        (is(wishes.mustPairs, m, f) ||
          (!shut.has(m) && !shut.has(MALES + f) && !is(wishes.mustNotPairs, m, f))),
    );
    const kept =
      count.every((each, fish) => each <= Math.max(mostPerFish, used[fish]!)) &&
      wishes.mustFish!.every((fish) => count[fish]! > 0) &&
      wishes.mustPairs!.every(([m, f]) => [...cells, ...stands].includes(m * FEMALES + f));
    if (!allowed || !kept) continue;
    let square = 0;
    count.forEach((a, i) => count.forEach((b, j) => (square += a * b * coancestry[i * size + j]!)));
    choices.push({
      worth: cells.reduce((sum, k) => sum + worth[k]!, 0),
      coancestry: square / (2 * (broods + standing.length)) ** 2,
    });
  }
  return choices;
}

const countsOf = (pairs: readonly (readonly [number, number])[]): Float64Array => {
  const count = new Float64Array(MALES + FEMALES);
  for (const [m, f] of pairs) {
    count[m]!++;
    count[MALES + f]!++;
  }
  return count;
};

const codeOf = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof MatingError) return error.code;
    throw error;
  }
  return 'none';
};

const isImpossible = ({ problem, wishes }: Case): boolean => {
  const size = MALES + FEMALES;
  return wishes.mustPairs!.some(
    ([m, f]) =>
      !problem.standing!.some(([a, b]) => a === m && b === f) &&
      (Number.isNaN(problem.worth[m * FEMALES + f]!) ||
        problem.coancestry[m * size + MALES + f]! > (problem.ceiling ?? 1)),
  );
};

describe('the set of pairs', () => {
  it.each([
    ['by the solver', { mostChoices: 0 }],
    ['by going through all choices', {}],
  ])('is as good as the best of all choices, and says when there is none: %s', (_, options) => {
    let reached = 0;
    fc.assert(
      fc.property(caseOf, (given) => {
        if (isImpossible(given)) {
          expect(codeOf(() => new PairChooser(highs, given.problem, given.wishes))).toBe(
            'MATING_PAIR_NOT_ALLOWED',
          );
          return;
        }
        const choices = everyChoice(given);
        const chooser = new PairChooser(highs, given.problem, given.wishes);
        if (choices.length === 0) {
          expect(codeOf(() => chooser.best(null, options))).toBe('MATING_PAIRS_UNREACHABLE');
          expect(codeOf(() => chooser.leastRelated(options))).toBe('MATING_PAIRS_UNREACHABLE');
          return;
        }
        const of = choices.map(({ coancestry }) => coancestry);
        const [least, most] = [Math.min(...of), Math.max(...of)];
        const found = chooser.leastRelated(options);
        expect(found.coancestry).toBeCloseTo(least, 8);
        expect(found.leastCoancestry).toBeCloseTo(least, 6);
        const limit = least + given.at * (most - least);
        const within = choices.filter(({ coancestry }) => coancestry <= limit + 1e-9);
        if (within.length === 0) {
          expect(codeOf(() => chooser.best(limit, options))).toBe('MATING_COANCESTRY_UNREACHABLE');
          return;
        }
        const best = Math.max(...within.map(({ worth }) => worth));
        const set = chooser.best(limit, options);
        expect(set.worth).toBeCloseTo(best, 6);
        expect(set.bound).toBeGreaterThanOrEqual(best - 1e-5);
        expect(set.bound).toBeLessThanOrEqual(best + 1e-4);
        expect(set.coancestry).toBeLessThanOrEqual(limit + 1e-9);
        expect(chooser.best(null, options).worth).toBeCloseTo(
          Math.max(...choices.map(({ worth }) => worth)),
          6,
        );
        reached++;
      }),
      runs(300),
    );
    expect(reached).toBeGreaterThan(60);
  });

  it('comes near to the best contributions, which no whole broods can pass, and says how near', () => {
    const { problem, males, females } = manyCandidates();
    const chooser = new PairChooser(highs, problem);
    const parts = 2 * problem.broods;
    const contributions: ContributionProblem = {
      ids: [...problem.males, ...problem.females],
      // A pair is worth what both are worth: each part of a fish brings its worth.
      value: Float64Array.of(...males, ...females),
      coancestry: problem.coancestry,
      group: Int32Array.from({ length: males.length + females.length }, (_, k) =>
        k < males.length ? 0 : 1,
      ),
      totals: [0.5, 0.5],
      most: new Float64Array(males.length + females.length).fill(problem.mostPerFish / parts),
    };
    const least = leastCoancestry(contributions).coancestry;
    for (const more of [0.01, 0.03]) {
      const best = bestContributions(contributions, least + more).value * parts;
      const set = chooser.best(least + more, { gap: 0.01 });
      expect(set.worth).toBeLessThanOrEqual(best + 1e-6);
      expect(set.bound).toBeLessThanOrEqual(best + 1e-3);
      expect(set.worth).toBeGreaterThan(0.97 * set.bound);
      const noTime = new PairChooser(highs, problem).best(least + more, { secondsLeft: () => 0 });
      expect(noTime.bound).toBeGreaterThanOrEqual(set.worth - 1e-6);
      expect(noTime.bound).toBeLessThan(Infinity);
    }
    const kin = chooser.leastRelated({ gap: 0.03 });
    expect(kin.coancestry).toBeGreaterThanOrEqual(least - 1e-9);
    expect(kin.leastCoancestry).toBeGreaterThanOrEqual(least - 1e-6);
    expect(kin.leastCoancestry).toBeLessThanOrEqual(kin.coancestry + 1e-9);
  });
});
