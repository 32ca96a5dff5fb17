import type { Highs } from 'highs';
import { nearShares, startingCells } from './first-pairs.js';
import { squareOf } from './kinship-parts.js';
import { rootOf } from './pair-layout.js';
import { PairModel, type Solved, type Tangent } from './pair-model.js';
import { countsOf, improveBySwaps, type PairRules } from './swaps.js';

export interface SearchOptions {
  /** Seconds left; the best found so far comes back when there are none, with its bound. */
  readonly secondsLeft?: () => number;
  /** Stops once the bound is within this share of the answer; 1e-6 unless given. */
  readonly gap?: number;
  /** Where there are at most so many choices, all are gone through and the answer is exact; 0: the solver is always asked. 2 million unless given. */
  readonly mostChoices?: number;
}

export interface Found {
  /** Chosen cells; null when none was found. */
  readonly chosen: readonly number[] | null;
  /** What no choice can cost less than; Infinity when there is none at all. */
  readonly bound: number;
}

export interface SearchTask {
  readonly rules: PairRules;
  readonly pairs: number;
  /** Cost of each cell. */
  readonly cost: Float64Array;
  /** Whether n'Kn is minimised, and not the cost. */
  readonly isKinship: boolean;
  /** Tangents known so far; those found are added. */
  readonly tangents: Tangent[];
}

const MOST_ROUNDS = 60;
const TOLERANCE = 1e-9;

/** One search: a cost a cell is minimised within a limit on n'Kn, or n'Kn itself. */
export class Search {
  readonly #model: PairModel;
  readonly #worth: Float64Array;
  readonly #gap: number;
  readonly #secondsLeft: () => number;
  #best: readonly number[] | null = null;
  #bestCost = Infinity;
  #bound = -Infinity;

  constructor(
    highs: Highs,
    private readonly task: SearchTask,
    { secondsLeft = () => Infinity, gap = 1e-6 }: SearchOptions,
  ) {
    const { rules, pairs, cost } = task;
    this.#worth = cost.map((each) => -each);
    this.#model = new PairModel(highs, rules, pairs, cost, startingCells(rules, this.#worth));
    this.#gap = gap;
    this.#secondsLeft = secondsLeft;
  }

  run(): Found {
    try {
      this.task.tangents.forEach((tangent) => this.#model.addTangent(tangent));
      this.#takeNear(new Float64Array(this.#worth.length));
      if (!this.task.isKinship && !this.#isWithinReach()) return { chosen: null, bound: Infinity };
      this.#model.aimAtKinship(this.task.isKinship);
      if (this.task.isKinship) this.#model.limit(Infinity);
      const relaxed = this.#tightened();
      if (relaxed.state === 'infeasible') return { chosen: null, bound: Infinity };
      if (relaxed.state === 'solved') this.#withWholePairs(relaxed);
      return { chosen: this.#best, bound: this.#bound };
    } finally {
      this.#model.end();
    }
  }

  /** Whether the limit can be kept with fractions: cells are taken in until it is, or n'Kn can become no less. */
  #isWithinReach(): boolean {
    const { most } = this.task.rules;
    if (this.#best !== null || most === Infinity) return true;
    this.#model.aimAtKinship(true);
    this.#model.limit(Infinity);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const solved = this.#model.relaxed(this.#secondsLeft);
      if (solved.state === 'infeasible' || solved.bound > most) return false;
      if (solved.state === 'stopped' || !this.#addTangents(solved.roots, solved.squares)) break;
    }
    this.#model.limit(most);
    return true;
  }

  /** The best with fractions, tangents added where it is beyond the square; whole pairs near it are tried. */
  #tightened(): Solved {
    let last = this.#model.relaxed(this.#secondsLeft);
    for (let round = 0; round < MOST_ROUNDS && last.state === 'solved'; round++) {
      this.#bound = Math.max(this.#bound, last.bound);
      if (round % 4 === 3) this.#takeNear(last.share);
      if (this.#closed() || !this.#addTangents(last.roots, last.squares)) break;
      const next = this.#model.relaxed(this.#secondsLeft);
      const little = Math.abs(next.bound - last.bound) <= 1e-5 * Math.abs(next.bound);
      if (next.state !== 'solved') return next.state === 'stopped' ? last : next;
      last = next;
      if (little && round > 3) break;
    }
    if (last.state === 'solved') {
      this.#bound = Math.max(this.#bound, last.bound);
      this.#takeNear(last.share);
    }
    return last;
  }

  #withWholePairs({ reduced, bound }: Solved): void {
    if (this.#closed()) return;
    this.#model.wantWhole(reduced, this.#bestCost - bound + 1e-6);
    const seen = new Set<string>();
    while (!this.#closed() && this.#secondsLeft() > 0) {
      const solved = this.#model.whole({
        seconds: this.#secondsLeft(),
        gap: this.#gap / 2,
        start: this.#best,
      });
      // What was left out costs more than the best at hand.
      this.#bound = Math.max(this.#bound, Math.min(solved.bound, this.#bestCost));
      if (solved.state === 'infeasible' || solved.share.length === 0) return;
      const chosen = [...solved.share.keys()].filter((cell) => solved.share[cell]! > 0.5);
      this.#take(chosen);
      this.#take(improveBySwaps(this.task.rules, chosen, this.#worth));
      if (solved.state === 'stopped') return;
      if (!this.#cutOff(chosen, solved.squares, seen)) return;
    }
  }

  /** @returns false when nothing is to be cut off any more: the choice is the best there is. */
  #cutOff(chosen: readonly number[], squares: Float64Array, seen: Set<string>): boolean {
    const { rules } = this.task;
    const { kindOf, ownOfKind, factors } = rules.parts;
    const ofKind = new Int32Array(ownOfKind.length);
    countsOf(rules, chosen).forEach((each, fish) => (ofKind[kindOf[fish]!]! += each));
    const roots = factors.map((factor) => rootOf(factor, ofKind));
    const added = this.#addTangents(roots, squares);
    const key = chosen.join();
    if (!added || seen.has(key)) {
      if (this.#fits(chosen)) return false;
      this.#model.forbid(chosen);
    }
    seen.add(key);
    return true;
  }

  /** Whether the bound has come near enough to the best. */
  #closed(): boolean {
    if (this.#best === null) return false;
    return this.#bestCost - this.#bound <= this.#gap * Math.abs(this.#bestCost) + TOLERANCE;
  }

  #fits(chosen: readonly number[]): boolean {
    const { rules, isKinship } = this.task;
    return isKinship || squareOf(rules.parts, countsOf(rules, chosen)) <= rules.most;
  }

  #take(chosen: readonly number[]): void {
    if (!this.#fits(chosen)) return;
    const { isKinship, rules, cost } = this.task;
    const sum = isKinship
      ? squareOf(rules.parts, countsOf(rules, chosen))
      : chosen.reduce((total, cell) => total + cost[cell]!, 0);
    if (sum < this.#bestCost) [this.#best, this.#bestCost] = [chosen, sum];
  }

  /** Whole pairs near a solution with fractions, made better by exchanges. */
  #takeNear(share: Float64Array): void {
    const { rules, pairs } = this.task;
    const start = nearShares(rules, share, this.#worth, pairs);
    if (start === null) return;
    const better = improveBySwaps(rules, start, this.#worth);
    this.#take(better);
    this.#model.takeIn(better);
  }

  /**
   * Adds a tangent for each square that the solver takes for too small.
   *
   * @returns whether there was one.
   */
  #addTangents(roots: ArrayLike<number>, squares: Float64Array): boolean {
    if (this.task.rules.most === Infinity && !this.task.isKinship) return false;
    let added = false;
    squares.forEach((figure, square) => {
      const at = roots[square]!;
      if (at * at - figure <= TOLERANCE) return;
      const tangent = { square, at };
      this.task.tangents.push(tangent);
      this.#model.addTangent(tangent);
      added = true;
    });
    return added;
  }
}
