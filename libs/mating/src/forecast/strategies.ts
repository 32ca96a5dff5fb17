import { assignCheapest } from '../assignment.js';
import {
  bestContributions,
  leastCoancestry,
  type Contributions,
} from '../contributions/best-contributions.js';
import type { ContributionProblem } from '../contributions/contribution-problem.js';
import { MatingError } from '../mating-error.js';
import type { Draws } from '../simulated/draws.js';

/** From what a strategy chooses pairs in one generation. */
export interface Choice {
  readonly males: readonly number[];
  readonly females: readonly number[];
  /** The best of each sex of each brood, by estimated worth; the actual fish all. */
  readonly bestOfBroods: () => readonly number[];
  /** Fish of one brood have one number; each actual fish has its own. */
  readonly broodOf: (fish: number) => number;
  /** Estimated worth of a fish, in points. */
  readonly worth: (fish: number) => number;
  /** Points of a fish by its own scores and looks alone. */
  readonly scored: (fish: number) => number;
  readonly coancestry: (a: number, b: number) => number;
  readonly broods: number;
  readonly broodsPerFish: number;
  /** Highest mean coancestry of the parents, weighed by their young, for this generation; `null`: no limit. */
  readonly kinshipLimit: number | null;
  readonly draws: Draws;
}

export type Pair = readonly [sire: number, dam: number];

/** Chooses as many pairs as there are broods. */
export type Strategy = (choice: Choice) => Pair[];

/**
 * Most worth under the limit on kinship: contributions of the candidates, rounded to whole broods, mates chosen so that the broods' F are
 * least in sum. Where the limit cannot be kept, the least kinship that can be.
 */
export const planned: Strategy = (choice) => {
  const { broods, broodsPerFish, kinshipLimit } = choice;
  const isMale = new Set(choice.males);
  const best = choice.bestOfBroods();
  const males = best.filter((one) => isMale.has(one));
  const females = best.filter((one) => !isMale.has(one));
  const fish = [...males, ...females];
  const problem: ContributionProblem = {
    ids: fish.map(String),
    value: Float64Array.from(fish, choice.worth),
    coancestry: Float64Array.from({ length: fish.length ** 2 }, (_, k) =>
      choice.coancestry(fish[Math.floor(k / fish.length)]!, fish[k % fish.length]!),
    ),
    group: Int32Array.from(fish, (_, k) => (k < males.length ? 0 : 1)),
    totals: [0.5, 0.5],
    most: Float64Array.from(fish, (_, k) =>
      mostShare(k < males.length ? males.length : females.length, broods, broodsPerFish),
    ),
  };
  const { share } = underLimit(problem, kinshipLimit);
  const sires = wholeBroods(males, share.slice(0, males.length), choice);
  const dams = wholeBroods(females, share.slice(males.length), choice);
  return matedApart(sires, dams, choice);
};

/** One fish may fill all its broods, or more where there are too few of its sex. */
const mostShare = (ofSex: number, broods: number, broodsPerFish: number): number =>
  Math.min(0.5, 0.5 * Math.max(broodsPerFish / broods, 1 / ofSex));

function underLimit(problem: ContributionProblem, limit: number | null): Contributions {
  try {
    return bestContributions(problem, limit ?? 1);
  } catch (error) {
    if (error instanceof MatingError && error.code === 'MATING_COANCESTRY_UNREACHABLE')
      return leastCoancestry(problem);
    throw error;
  }
}

/**
 * Shares of one half in all, as whole broods. First by the broods that the fish come from, whose young are alike to all others, then by fish
 * within them: what is left by rounding down goes to the largest remainders, among equals to the most worth.
 */
function wholeBroods(
  fish: readonly number[],
  share: Float64Array,
  { broods, broodOf, worth }: Choice,
): number[] {
  const families = new Map<number, number[]>();
  fish.forEach((one, k) => {
    const family = broodOf(one);
    families.set(family, [...(families.get(family) ?? []), k]);
  });
  const wanted = fish.map((_, k) => 2 * broods * share[k]!);
  const best = [...families.values()].map((places) => ({
    places,
    wanted: places.reduce((sum, k) => sum + wanted[k]!, 0),
    worth: Math.max(...places.map((k) => worth(fish[k]!))),
  }));
  const ofFamily = apportioned(best, broods);
  return best.flatMap(({ places }, k) => {
    const list = places.map((at) => ({ at, wanted: wanted[at]!, worth: worth(fish[at]!) }));
    return apportioned(list, ofFamily[k]!).flatMap((count, at) =>
      Array.from({ length: count }, () => fish[list[at]!.at]!),
    );
  });
}

/** Gives out `count` one by one, each to whom most is still wanting. */
function apportioned(
  list: readonly { readonly wanted: number; readonly worth: number }[],
  count: number,
): number[] {
  const given = list.map(() => 0);
  for (let n = 0; n < count; n++) {
    let next = 0;
    list.forEach((one, k) => {
      const lead = list[next]!;
      const more = one.wanted - given[k]! - (lead.wanted - given[next]!);
      if (more > 1e-9 || (Math.abs(more) <= 1e-9 && one.worth > lead.worth)) next = k;
    });
    given[next]! += 1;
  }
  return given;
}

/** Mates of least coancestry in sum. */
function matedApart(
  sires: readonly number[],
  dams: readonly number[],
  { coancestry }: Pick<Choice, 'coancestry'>,
): Pair[] {
  const cost = Float64Array.from({ length: sires.length * dams.length }, (_, k) =>
    coancestry(sires[Math.floor(k / dams.length)]!, dams[k % dams.length]!),
  );
  return assignCheapest(cost, sires.length, dams.length).cells.map(([row, column]): Pair => [
    sires[row]!,
    dams[column]!,
  ]);
}

const bestFirst = (fish: readonly number[], points: (fish: number) => number): number[] => {
  const by = new Map(fish.map((one) => [one, points(one)]));
  return fish.toSorted((a, b) => by.get(b)! - by.get(a)! || a - b);
};

const inTurn = (males: readonly number[], females: readonly number[], broods: number): Pair[] =>
  Array.from({ length: broods }, (_, k): Pair => [
    males[k % males.length]!,
    females[k % females.length]!,
  ]);

/** The best male by score to the best female, the second to the second, and so on. */
export const bestByBest: Strategy = ({ males, females, scored, broods }) =>
  inTurn(bestFirst(males, scored), bestFirst(females, scored), broods);

/** The given numbers of sires and dams, the best by score, put together by chance. */
export const fewBest =
  (sires: number, dams: number): Strategy =>
  ({ males, females, scored, broods, draws }) => {
    const best = bestFirst(males, scored).slice(0, sires);
    const mates = shuffled(bestFirst(females, scored).slice(0, dams), draws);
    return inTurn(best, mates, broods);
  };

/** The pairs of least coancestry, whatever their scores. */
export const leastRelated: Strategy = ({ males, females, coancestry, broods, draws }) => {
  // By chance among equals, which are many: all young of a brood are.
  const [rows, columns] = [shuffled(males, draws), shuffled(females, draws)];
  const cost = Float64Array.from({ length: rows.length * columns.length }, (_, k) =>
    coancestry(rows[Math.floor(k / columns.length)]!, columns[k % columns.length]!),
  );
  const { cells } = assignCheapest(cost, rows.length, columns.length, broods);
  return Array.from({ length: broods }, (_, k): Pair => {
    const [row, column] = cells[k % cells.length]!;
    return [rows[row]!, columns[column]!];
  });
};

/** Any male to any female. */
export const byChance: Strategy = ({ males, females, broods, draws }) =>
  inTurn(shuffled(males, draws), shuffled(females, draws), broods);

/**
 * The best of the other sex back to the one best fish by score there has been, as long as it can be used; then the best of what is there takes its
 * place. Holds its fish from one generation to the next: make one for each simulated line.
 */
export function backToBest(parentGenerations: number): Strategy {
  let kept: { fish: number; male: boolean; used: number } | null = null;
  return ({ males, females, scored, broods }) => {
    const [sires, dams] = [bestFirst(males, scored), bestFirst(females, scored)];
    if (kept === null || kept.used >= parentGenerations) {
      const male = scored(sires[0]!) >= scored(dams[0]!);
      kept = { fish: male ? sires[0]! : dams[0]!, male, used: 0 };
    }
    kept.used++;
    return kept.male ? inTurn([kept.fish], dams, broods) : inTurn(sires, [kept.fish], broods);
  };
}

function shuffled(fish: readonly number[], draws: Draws): number[] {
  const mixed = [...fish];
  for (let k = mixed.length - 1; k > 0; k--) {
    const other = draws.below(k + 1);
    [mixed[k], mixed[other]] = [mixed[other]!, mixed[k]!];
  }
  return mixed;
}
