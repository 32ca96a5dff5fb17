import type { Found } from './search.js';
import type { PairRules } from './swaps.js';

export interface EveryChoiceTask {
  readonly rules: PairRules;
  /** Pairs in all, those that are fixed among them. */
  readonly pairs: number;
  /** Cost of each cell. */
  readonly cost: Float64Array;
  /** Coancestries of all candidates. */
  readonly coancestry: Float64Array;
  /** Whether n'Kn is minimised, and not the cost. */
  readonly isKinship: boolean;
}

/** How many choices there are at most: of the cells that are free as many as are left to choose. */
export function numberOfChoices({ rules, pairs }: Pick<EveryChoiceTask, 'rules' | 'pairs'>) {
  const free = freeCells(rules).length;
  let choices = 1;
  for (let k = 0; k < pairs - rules.fixed.size; k++) choices *= (free - k) / (k + 1);
  return Math.max(0, choices);
}

const freeCells = ({ open, fixed }: PairRules): number[] =>
  [...open.keys()].filter((cell) => open[cell] === 1 && !fixed.has(cell));

/**
 * The best choice of whole pairs by going through all of them, cheap cells first: what cannot become better than the best so far is left.
 *
 * Cost: at most {@link numberOfChoices}, a few operations each.
 */
export class EveryChoice {
  readonly #task: EveryChoiceTask;
  readonly #free: readonly number[];
  readonly #size: number;
  readonly #count: Int32Array;
  readonly #chosen: number[];
  /** Without a coancestry below 0 each pair more makes n'Kn no less. */
  readonly #grows: boolean;
  #best: readonly number[] | null = null;
  #bestFigure = Infinity;

  constructor(task: EveryChoiceTask) {
    const { rules, cost, coancestry } = task;
    this.#task = task;
    this.#size = rules.mostOf.length;
    this.#free = freeCells(rules).sort((a, b) => cost[a]! - cost[b]!);
    this.#count = new Int32Array(this.#size);
    this.#chosen = [];
    this.#grows = coancestry.every((each) => each >= 0);
  }

  run(): Found {
    const { rules, pairs, cost } = this.#task;
    const { male, female } = rules.cells;
    let [sum, square] = [0, 0];
    let related = new Float64Array(this.#size);
    for (const cell of rules.fixed) {
      square += this.#growth(related, male[cell]!, female[cell]!);
      sum += cost[cell]!;
      related = this.#with(related, male[cell]!, female[cell]!);
      this.#move(cell, 1);
    }
    const left = pairs - rules.fixed.size;
    const fits = this.#count.every((each, fish) => each <= rules.mostOf[fish]!);
    if (left >= 0 && fits) this.#go(0, left, sum, square, related);
    return { chosen: this.#best, bound: this.#best === null ? Infinity : this.#bestFigure };
  }

  /** @param related K n of what is chosen so far. */
  #go(from: number, left: number, sum: number, square: number, related: Float64Array): void {
    if (left === 0) {
      this.#take(sum, square);
      return;
    }
    const { rules, cost, isKinship } = this.#task;
    const { male, female } = rules.cells;
    for (let k = from; k <= this.#free.length - left; k++) {
      const cell = this.#free[k]!;
      // All that follow cost no less.
      if (!isKinship && sum + left * cost[cell]! >= this.#bestFigure) return;
      const [m, f] = [male[cell]!, female[cell]!];
      if (this.#count[m]! >= rules.mostOf[m]! || this.#count[f]! >= rules.mostOf[f]!) continue;
      const grown = square + this.#growth(related, m, f);
      const most = isKinship ? this.#bestFigure : rules.most;
      if (this.#grows && grown > most) continue;
      this.#move(cell, 1);
      this.#chosen.push(cell);
      const next = left === 1 ? related : this.#with(related, m, f);
      this.#go(k + 1, left - 1, sum + cost[cell]!, grown, next);
      this.#chosen.pop();
      this.#move(cell, -1);
    }
  }

  #take(sum: number, square: number): void {
    const { rules, isKinship } = this.#task;
    const figure = isKinship ? square : sum;
    if (figure >= this.#bestFigure || (!isKinship && square > rules.most)) return;
    if (!rules.least.every((least, fish) => this.#count[fish]! >= least)) return;
    this.#bestFigure = figure;
    this.#best = [...rules.fixed, ...this.#chosen];
  }

  /** By how much one more brood of `m` and `f` makes n'Kn larger. */
  #growth(related: Float64Array, m: number, f: number): number {
    const { coancestry } = this.#task;
    const of = (a: number, b: number): number => coancestry[a * this.#size + b]!;
    return of(m, m) + of(f, f) + 2 * (of(m, f) + related[m]! + related[f]!);
  }

  #with(related: Float64Array, m: number, f: number): Float64Array<ArrayBuffer> {
    const { coancestry } = this.#task;
    const [rowOfMale, rowOfFemale] = [m * this.#size, f * this.#size];
    return Float64Array.from(
      related,
      (each, fish) => each + coancestry[rowOfMale + fish]! + coancestry[rowOfFemale + fish]!,
    );
  }

  #move(cell: number, by: number): void {
    const { male, female } = this.#task.rules.cells;
    this.#count[male[cell]!]! += by;
    this.#count[female[cell]!]! += by;
  }
}
