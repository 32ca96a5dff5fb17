import { MatingError } from '../mating-error.js';
import type { BoundedProblem } from './contribution-problem.js';
import { FreeSet, type PathLine } from './free-set.js';

/** A stretch of the path on which contributions move along a straight line, from weight `from` to weight `to`. */
export interface PathStretch {
  /** Weight of worth against coancestry: t in x'Kx / 2 - t v'x. */
  readonly from: number;
  /** Infinity on the last stretch, where nothing moves any more. */
  readonly to: number;
  readonly start: Float64Array;
  readonly end: Float64Array;
}

/** Contributions nearer to a bound than this stand at it. */
const NEAR = 1e-13;
/** Changes, beside one a free candidate, after which the factor is made anew. */
const RENEW_AFTER = 64;

interface Change {
  readonly t: number;
  /** Place among the free ones that reaches its bound, or -1. */
  readonly place: number;
  /** Candidate that is set free, or -1. */
  readonly candidate: number;
  readonly bound: number;
}

/**
 * The best contributions for every weight of worth against coancestry, from least coancestry to greatest worth: contributions of least
 * x'Kx / 2 - t v'x are straight lines in t between the weights at which a candidate reaches a bound or leaves it.
 *
 * Source: Markowitz H (1956) Naval Research Logistics Quarterly 3:111-133 (critical lines); Meuwissen THE (1997) J Anim Sci 75:934-940
 * (contributions of most worth under a limit on coancestry). Cost: for each such weight the free candidates times all candidates.
 */
export class ContributionPath {
  readonly #free: FreeSet;
  readonly #x: Float64Array;
  readonly #isFree: Uint8Array;
  readonly #freeOfGroup: Int32Array;
  #changes = 0;

  /**
   * @param problem with worth in a range of about 1, see {@link withWorthInRange}.
   * @param from the weight to begin at.
   * @param near contributions within the bounds, near the best at that weight.
   */
  constructor(
    readonly problem: BoundedProblem,
    readonly from: number,
    near: Float64Array,
  ) {
    this.#x = near.map((share, k) => this.#within(k, share));
    this.#free = new FreeSet(problem, this.#x);
    this.#isFree = new Uint8Array(problem.ids.length);
    this.#freeOfGroup = new Int32Array(problem.totals.length);
    this.#x.forEach((share, k) => {
      if (share > problem.least[k]! && share < problem.most[k]!) this.#setFree(k);
    });
    problem.totals.forEach((_, group) => {
      if (this.#freeOfGroup[group] === 0) this.#setOneFree(group);
    });
    this.#descend();
  }

  /** The best contributions at the weight where the path begins. */
  get first(): Float64Array {
    return this.#x.slice();
  }

  /** Stretch after stretch; the walk can be taken once. */
  *stretches(): Generator<PathStretch> {
    let { from } = this;
    let idle = 0;
    for (;;) {
      const line = this.#free.line();
      const change = this.#nextChange(line, from);
      this.#moveTo(line, from);
      const start = this.#x.slice();
      if (change.t === Infinity) {
        yield { from, to: Infinity, start, end: start };
        return;
      }
      this.#moveTo(line, change.t);
      if (change.t > from) yield { from, to: change.t, start, end: this.#x.slice() };
      idle = change.t > from ? 0 : idle + 1;
      if (idle > 4 * this.#x.length + 100) throw stuck();
      if (change.place >= 0) this.#hold(change.place, change.bound);
      else this.#setFree(change.candidate);
      from = change.t;
    }
  }

  #moveTo({ at, slope }: PathLine, t: number): void {
    this.#free.members.forEach((k, i) => (this.#x[k] = this.#within(k, at[i]! + slope[i]! * t)));
  }

  /** To least coancestry, from any contributions within the bounds. */
  #descend(): void {
    for (let turn = 0; ; turn++) {
      if (turn > 50 * this.#x.length + 1000) throw stuck();
      const line = this.#free.line();
      if (this.#blocked(line.at.map((at, i) => at + line.slope[i]! * this.from))) continue;
      const candidate = this.#mostWanted(line);
      if (candidate < 0) return;
      this.#setFree(candidate);
    }
  }

  /** Moves the free ones to `target`, or to the first bound on the way, where that candidate is then held. */
  #blocked(target: Float64Array): boolean {
    const { least, most } = this.problem;
    const { members } = this.#free;
    let [share, place, bound] = [1, -1, 0];
    members.forEach((k, i) => {
      const step = target[i]! - this.#x[k]!;
      const end = step < 0 ? least[k]! : most[k]!;
      if (Math.sign(step) * (target[i]! - end) <= NEAR || this.#isLone(k)) return;
      const reach = Math.max(0, (end - this.#x[k]!) / step);
      if (reach < share) [share, place, bound] = [reach, i, end];
    });
    members.forEach((k, i) => {
      this.#x[k] = this.#within(k, this.#x[k]! + share * (target[i]! - this.#x[k]!));
    });
    if (place < 0) return false;
    this.#hold(place, bound);
    return true;
  }

  /** The held candidate whose move off its bound lessens coancestry most for a little of it; -1 when there is none. */
  #mostWanted({ multiplierAt, multiplierSlope }: PathLine): number {
    const { least, most, group, value } = this.problem;
    const gradient = this.#multiply(this.#x);
    let [best, gain] = [-1, 1e-11];
    for (let k = 0; k < this.#x.length; k++) {
      if (this.#isFree[k] === 1 || most[k]! - least[k]! <= NEAR) continue;
      const of = group[k]!;
      const weighed = value[k]! + multiplierSlope[of]!;
      const slope = gradient[k]! - multiplierAt[of]! - this.from * weighed;
      const wanted = this.#isAtMost(k) ? slope : -slope;
      if (wanted > gain) [best, gain] = [k, wanted];
    }
    return best;
  }

  /** The next weight at which a free candidate reaches a bound, or a held one leaves it. */
  #nextChange(line: PathLine, from: number): Change {
    const { least, most, group, value } = this.problem;
    const { members } = this.#free;
    let next: Change = { t: Infinity, place: -1, candidate: -1, bound: 0 };
    members.forEach((k, place) => {
      const slope = line.slope[place]!;
      if (slope === 0 || this.#isLone(k)) return;
      const bound = slope < 0 ? least[k]! : most[k]!;
      const t = Math.max(from, (bound - line.at[place]!) / slope);
      if (t < next.t) next = { t, place, candidate: -1, bound };
    });
    const [all, slopes] = [this.#free.held.slice(), new Float64Array(this.#x.length)];
    members.forEach((k, i) => {
      all[k] = line.at[i]!;
      slopes[k] = line.slope[i]!;
    });
    const [gradientAt, gradientSlope] = [this.#multiply(all), this.#multiply(slopes)];
    for (let k = 0; k < all.length; k++) {
      if (this.#isFree[k] === 1 || most[k]! - least[k]! <= NEAR) continue;
      const side = this.#isAtMost(k) ? -1 : 1;
      const of = group[k]!;
      const at = side * (gradientAt[k]! - line.multiplierAt[of]!);
      const slope = side * (gradientSlope[k]! - value[k]! - line.multiplierSlope[of]!);
      if (slope >= -1e-12) continue;
      const t = Math.max(from, -at / slope);
      if (t < next.t) next = { t, place: -1, candidate: k, bound: 0 };
    }
    return next;
  }

  #multiply(shares: Float64Array): Float64Array {
    const { coancestry } = this.problem;
    const size = shares.length;
    const product = new Float64Array(size);
    for (let k = 0; k < size; k++) {
      const share = shares[k]!;
      if (share === 0) continue;
      const row = k * size;
      for (let j = 0; j < size; j++) product[j]! += share * coancestry[row + j]!;
    }
    return product;
  }

  #within(k: number, share: number): number {
    const [low, high] = [this.problem.least[k]!, this.problem.most[k]!];
    return share - low <= NEAR ? low : high - share <= NEAR ? high : share;
  }

  /** Which bound a held candidate stands at. */
  #isAtMost(k: number): boolean {
    return this.#x[k]! - this.problem.least[k]! > this.problem.most[k]! - this.#x[k]!;
  }

  /** Alone free in its group, which fixes what it gives. */
  #isLone(k: number): boolean {
    return this.#freeOfGroup[this.problem.group[k]!] === 1;
  }

  #setFree(k: number): void {
    this.#isFree[k] = 1;
    this.#freeOfGroup[this.problem.group[k]!]!++;
    this.#free.add(k);
    this.#renewSometimes();
  }

  #hold(place: number, bound: number): void {
    const k = this.#free.members[place]!;
    this.#isFree[k] = 0;
    this.#freeOfGroup[this.problem.group[k]!]!--;
    this.#x[k] = bound;
    this.#free.hold(place, bound);
    this.#renewSometimes();
  }

  #renewSometimes(): void {
    if (++this.#changes < RENEW_AFTER + this.#free.members.length) return;
    this.#changes = 0;
    this.#free.renew();
  }

  /** Sets one candidate of a group free that may move. */
  #setOneFree(group: number): void {
    const { least, most, group: of } = this.problem;
    const k = of.findIndex((own, at) => own === group && most[at]! - least[at]! > NEAR);
    if (k >= 0) this.#setFree(k);
  }
}

/** Worth from 0 to 1, so that what counts as rounding does not hang on its unit. */
export function withWorthInRange(problem: BoundedProblem): BoundedProblem {
  const { value, group, totals } = problem;
  const lowest = totals.map((_, of) =>
    value.reduce((low, each, k) => (group[k] === of ? Math.min(low, each) : low), Infinity),
  );
  const range = value.reduce((top, each, k) => Math.max(top, each - lowest[group[k]!]!), 0);
  const inRange = (each: number, k: number): number =>
    range > 0 ? (each - lowest[group[k]!]!) / range : 0;
  return { ...problem, value: value.map(inRange) };
}

/** Contributions within the bounds: beyond what each must give, each group's total is given by its first candidates that may. */
export function anyContributions({ group, totals, least, most }: BoundedProblem): Float64Array {
  const x = least.slice();
  totals.forEach((total, of) => {
    let rest = total;
    group.forEach((own, k) => (rest -= own === of ? x[k]! : 0));
    group.forEach((own, k) => {
      if (own !== of || rest <= 0) return;
      const more = Math.min(rest, most[k]! - x[k]!);
      x[k]! += more;
      rest -= more;
    });
  });
  return x;
}

const stuck = (): MatingError =>
  new MatingError(
    'MATING_BAD_CONTRIBUTION',
    'coancestry',
    'The contributions do not settle: coancestries must be those of one pedigree, symmetric and without rounding to a few digits.',
  );
