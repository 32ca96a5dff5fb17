import type { RouteCourse } from './run-route.js';

/** What many simulated courses of one route say. */
export interface RouteFigures {
  readonly simulations: number;
  /** Chance that the goal is reached within the route's generations. */
  readonly chance: number;
  /** sqrt(p (1 - p) / n): how far the chance may be off by the number of simulations. */
  readonly standardError: number;
  /** 95 % interval of the chance (Wilson), also where it is 0 or 1. */
  readonly low: number;
  readonly high: number;
  /** Chance that it is reached by the first, second, ... generation. */
  readonly byGeneration: readonly number[];
  /** Mean number of generations until the goal, among courses that reach it; `null`: none did. */
  readonly generations: number | null;
  /** Mean of young to raise to the age of sorting, until the goal or the end. */
  readonly fry: number;
  readonly broods: number;
  /** F of the brood that reached the goal, else of the last: mean, and the range that holds 8 of 10 courses. */
  readonly inbreeding: { readonly mean: number; readonly low: number; readonly high: number };
  /** Mean share of that brood that passed. */
  readonly passing: number;
  /** Share of courses that ended early because each pair would have passed the ceiling on F. */
  readonly endedByCeiling: number;
}

/** 95 % interval of a share counted `x` of `n` times: Wilson EB (1927) J Am Stat Assoc 22:209-212. */
export function wilsonInterval(x: number, n: number): { low: number; high: number } {
  const z = 1.959963984540054;
  const share = x / n;
  const middle = share + z ** 2 / (2 * n);
  const reach = z * Math.sqrt((share * (1 - share)) / n + z ** 2 / (4 * n ** 2));
  const whole = 1 + z ** 2 / n;
  return {
    low: Math.max(0, (middle - reach) / whole),
    high: Math.min(1, (middle + reach) / whole),
  };
}

/** Adds up courses of one route. */
export class RouteTally {
  readonly #reached: number[];
  readonly #inbreeding: number[] = [];
  #fry = 0;
  #broods = 0;
  #passing = 0;
  #ceiling = 0;

  constructor(steps: number) {
    this.#reached = Array.from({ length: steps + 1 }, () => 0);
  }

  get simulations(): number {
    return this.#inbreeding.length;
  }

  add(course: RouteCourse): void {
    this.#reached[course.reached]! += 1;
    this.#inbreeding.push(course.inbreeding);
    this.#fry += course.fry;
    this.#broods += course.broods;
    this.#passing += course.passing;
    if (course.ended === 'ceiling') this.#ceiling++;
  }

  /** @throws RangeError when nothing was added. */
  figures(): RouteFigures {
    const n = this.simulations;
    if (n === 0) throw new RangeError('No course was simulated.');
    const [missed = 0, ...by] = this.#reached;
    const chance = 1 - missed / n;
    let sum = 0;
    const byGeneration = by.map((count) => (sum += count) / n);
    const sorted = this.#inbreeding.toSorted((a, b) => a - b);
    const at = (share: number): number => sorted[Math.round(share * (n - 1))]!;
    return {
      simulations: n,
      chance,
      standardError: Math.sqrt((chance * (1 - chance)) / n),
      ...wilsonInterval(n - missed, n),
      byGeneration,
      generations:
        missed === n ? null : by.reduce((all, count, k) => all + (k + 1) * count, 0) / (n - missed),
      fry: this.#fry / n,
      broods: this.#broods / n,
      inbreeding: {
        mean: sorted.reduce((all, one) => all + one, 0) / n,
        low: at(0.1),
        high: at(0.9),
      },
      passing: this.#passing / n,
      endedByCeiling: this.#ceiling / n,
    };
  }
}
