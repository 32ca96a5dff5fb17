import type { Highs } from 'highs';
import { MatingError } from '../mating-error.js';
import { EveryChoice, numberOfChoices } from './every-choice.js';
import { kinshipParts, type KinshipParts } from './kinship-parts.js';
import type { Tangent } from './pair-model.js';
import {
  allowedCells,
  checkPlaces,
  type Cells,
  type PairProblem,
  type PairWishes,
} from './pair-problem.js';
import { Search, type Found, type SearchOptions } from './search.js';
import { setFigures, type SetFigures } from './set-figures.js';
import type { PairRules } from './swaps.js';

/** Whole broods that go together best, as far as they were looked for. */
export interface PairSet extends SetFigures {
  /** What no choice of pairs can be worth more than; Infinity of the least related pairs. */
  readonly bound: number;
  /** What c'Kc cannot be below for so many broods; of the least related pairs only. */
  readonly leastCoancestry: number | null;
}

/** Rounding that a limit on c'Kc is not refused for. */
const ROUNDING = 1e-9;
/** Choices that are gone through one by one rather than asked of the solver: a tenth of a second. */
const MOST_CHOICES = 2_000_000;

/**
 * Chooses the pairs of a round: the mates and how many broods of each candidate in one problem.
 *
 * An integer programme by HiGHS. The limit on c'Kc is a convex square; it is taken in by tangents, which never cut off a choice within the
 * limit, so that the solver's bound holds (outer approximation: Kelley JE (1960) J Soc Ind Appl Math 8:703-712; Duran MA & Grossmann IE
 * (1986) Math Program 36:307-339). Cells that cannot be in any choice better than the best at hand, by their cost in the solution with
 * fractions, are left out before whole numbers are asked for.
 *
 * Where there are few choices all are gone through in its place: two or three broods of a line are answered at once.
 *
 * Make one for candidates and wishes; tangents found for one limit serve the next. It holds no memory of the solver between calls.
 */
export class PairChooser {
  readonly #problem: PairProblem;
  readonly #highs: Highs;
  readonly #cells: Cells;
  readonly #parts: KinshipParts;
  readonly #tangents: Tangent[] = [];
  readonly #open: Uint8Array;
  readonly #fixed: ReadonlySet<number>;
  readonly #standing: ReadonlySet<number>;
  readonly #mostOf: Int32Array;
  readonly #least: Uint8Array;
  readonly #unit: number;

  /** @throws MatingError as {@link allowedCells}; MATING_PAIR_NOT_ALLOWED for a pair that must be made and cannot be. */
  constructor(highs: Highs, problem: PairProblem, wishes: PairWishes = {}) {
    this.#highs = highs;
    this.#problem = problem;
    checkPlaces(problem, wishes);
    this.#cells = allowedCells(problem);
    const { male, female, worth } = this.#cells;
    const males = problem.males.length;
    const size = males + problem.females.length;
    this.#parts = kinshipParts(problem.coancestry, size);
    const at = new Map<number, number>();
    male.forEach((m, cell) => at.set(m * size + female[cell]!, cell));
    const cellOf = ([m, f]: readonly [number, number]): number =>
      at.get(m * size + males + f) ?? -1;
    this.#standing = new Set((problem.standing ?? []).map(cellOf));
    this.#fixed = new Set([
      ...this.#standing,
      ...(wishes.mustPairs ?? []).map((pair) => this.#expectAllowed(pair, cellOf(pair))),
    ]);
    this.#mostOf = mostOfEach(problem, size);
    const shutFish = new Set(wishes.mustNotFish);
    const shutCells = new Set((wishes.mustNotPairs ?? []).map(cellOf));
    this.#open = Uint8Array.from(male, (m, cell) =>
      this.#fixed.has(cell) ||
      !(shutFish.has(m) || shutFish.has(female[cell]!) || shutCells.has(cell))
        ? 1
        : 0,
    );
    this.#least = new Uint8Array(size);
    for (const fish of wishes.mustFish ?? []) this.#least[fish] = 1;
    this.#unit = worth.reduce((top, each) => Math.max(top, Math.abs(each)), 0) || 1;
  }

  /**
   * Most worth whose c'Kc is at most `limit`; `null`: no limit.
   *
   * @throws MatingError MATING_COANCESTRY_UNREACHABLE when no such pairs exist, or none was found in the time; MATING_PAIRS_UNREACHABLE
   *   when there are not so many pairs.
   */
  best(limit: number | null, options: SearchOptions = {}): PairSet {
    const rules = this.#rules(limit ?? Infinity);
    const { chosen, bound } = this.#search(rules, false, options);
    if (chosen === null) throw this.#noneWithin(limit, bound, options);
    return this.#told(chosen, Math.min(-bound * this.#unit, this.#mostWorth()), null);
  }

  /**
   * Least c'Kc that so many whole broods can have.
   *
   * @throws MatingError MATING_PAIRS_UNREACHABLE when there are not so many pairs.
   */
  leastRelated(options: SearchOptions = {}): PairSet {
    const rules = this.#rules(0);
    const { chosen, bound } = this.#search(rules, true, options);
    if (chosen === null) throw this.#tooFew();
    return this.#told(chosen, Infinity, bound / this.#gives ** 2);
  }

  #search(rules: PairRules, isKinship: boolean, options: SearchOptions): Found {
    const cost = this.#cells.worth.map((each) => -each / this.#unit);
    const { coancestry } = this.#problem;
    const task = { rules, cost, isKinship, pairs: this.#allPairs, tangents: this.#tangents };
    const { mostChoices = MOST_CHOICES } = options;
    if (numberOfChoices(task) <= mostChoices) return new EveryChoice({ ...task, coancestry }).run();
    return new Search(this.#highs, task, options).run();
  }

  /** What so many pairs cannot be worth more than, whatever else is asked: known before the solver has said anything. */
  #mostWorth(): number {
    const { worth } = this.#cells;
    const free = worth.filter((_, cell) => this.#open[cell] === 1 && !this.#standing.has(cell));
    return free
      .sort()
      .slice(-this.#problem.broods)
      .reduce((sum, each) => sum + each, 0);
  }

  /** Those that stand and those to be chosen. */
  get #allPairs(): number {
    return this.#standing.size + this.#problem.broods;
  }

  /** Parts that all pairs give together: two a brood. */
  get #gives(): number {
    return 2 * this.#allPairs;
  }

  #rules(limit: number): PairRules {
    return {
      cells: this.#cells,
      parts: this.#parts,
      mostOf: this.#mostOf,
      least: this.#least,
      fixed: this.#fixed,
      open: this.#open,
      most: limit === Infinity ? Infinity : (limit + ROUNDING) * this.#gives ** 2,
    };
  }

  #told(chosen: readonly number[], bound: number, leastCoancestry: number | null): PairSet {
    const { male, female } = this.#cells;
    const males = this.#problem.males.length;
    const pairOf = (cell: number) => [male[cell]!, female[cell]! - males] as const;
    const figures = setFigures(
      this.#problem,
      chosen.filter((cell) => !this.#standing.has(cell)).map(pairOf),
      [...this.#standing].map(pairOf),
    );
    return { ...figures, bound: Math.max(figures.worth, bound), leastCoancestry };
  }

  #expectAllowed([m, f]: readonly [number, number], cell: number): number {
    if (cell >= 0) return cell;
    const { males, females, worth, ceiling = 1 } = this.#problem;
    const pair = `${males[m]!} by ${females[f]!}`;
    const why = Number.isNaN(worth[m * females.length + f]!)
      ? 'cannot be made'
      : `has an F above the ceiling of ${ceiling}`;
    throw new MatingError(
      'MATING_PAIR_NOT_ALLOWED',
      pair,
      `The pair ${pair} ${why}: take it out of those that must be made.`,
    );
  }

  #noneWithin(limit: number | null, bound: number, options: SearchOptions): MatingError {
    if (limit === null) return this.#tooFew();
    const least = this.leastRelated(options);
    const known = bound === Infinity ? 'cannot be reached' : 'was not reached in the time given';
    return new MatingError(
      'MATING_COANCESTRY_UNREACHABLE',
      String(limit),
      `A mean coancestry of ${limit} ${known} with ${this.#problem.broods} broods of these candidates: the least found is ${least.coancestry.toFixed(6)}. Allow at least that, ask for fewer or more broods, or add candidates that are less related.`,
    );
  }

  #tooFew(): MatingError {
    const { broods, mostPerFish } = this.#problem;
    const beside = this.#standing.size === 0 ? '' : ` beside the ${this.#standing.size} planned`;
    return new MatingError(
      'MATING_PAIRS_UNREACHABLE',
      String(broods),
      `${broods} broods${beside} cannot be made of these candidates with at most ${mostPerFish} a fish and what was asked for: ask for fewer broods, allow more a fish, or a higher F.`,
    );
  }
}

/** A fish whose pairs that stand are more than may be has no further one. */
function mostOfEach({ males, mostPerFish, standing = [] }: PairProblem, size: number): Int32Array {
  const used = new Int32Array(size);
  for (const [m, f] of standing) for (const fish of [m, males.length + f]) used[fish]!++;
  return used.map((each) => Math.max(each, mostPerFish));
}
