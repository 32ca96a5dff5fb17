import type { BoundedProblem } from './contribution-problem.js';
import { GrowingFactor } from './growing-factor.js';

/**
 * Share of a self-coancestry that must be its own. A candidate that is related to all others as another is (sibs of fully inbred
 * parents) has nothing of its own, and the equations no single solution: then this is added to its self-coancestry.
 */
const OWN_SHARE = 1e-10;

/** Contributions along the path: `at + slope t` for the candidates that are free, with the multipliers of the groups. */
export interface PathLine {
  readonly at: Float64Array;
  readonly slope: Float64Array;
  readonly multiplierAt: Float64Array;
  readonly multiplierSlope: Float64Array;
}

/**
 * The candidates that lie between their bounds, and the contributions of least x'Kx/2 - t v'x for them while all others stay where they
 * are. Cost of a line: a few times the square of the number of free candidates.
 */
export class FreeSet {
  readonly members: number[] = [];
  /** Contributions of all candidates; those of the free ones are not kept in step. */
  readonly held: Float64Array;
  #factor = new GrowingFactor();

  constructor(
    readonly problem: BoundedProblem,
    start: Float64Array,
  ) {
    this.held = start.slice();
  }

  /** Sets candidate `k` free. */
  add(k: number): void {
    this.held[k] = 0;
    this.members.push(k);
    this.#grow(this.#factor, this.members.length - 1);
  }

  /** Holds the free candidate at `place` at a bound. */
  hold(place: number, bound: number): void {
    const [k] = this.members.splice(place, 1);
    this.held[k!] = bound;
    this.#factor.remove(place);
  }

  /** Makes the factor anew, so that what many changes have rounded off is gone. */
  renew(): void {
    this.#factor = new GrowingFactor();
    this.members.forEach((_, place) => this.#grow(this.#factor, place));
  }

  #grow(factor: GrowingFactor, place: number): void {
    const { coancestry, ids } = this.problem;
    const k = this.members[place]!;
    const row = k * ids.length;
    const column = this.members.slice(0, place).map((other) => coancestry[row + other]!);
    const diagonal = coancestry[row + k]!;
    const least = OWN_SHARE * (diagonal + 1e-3);
    for (let added = 0; ; added = 10 * added + least)
      if (factor.append(column, diagonal + added, least)) return;
  }

  line(): PathLine {
    const { members, problem } = this;
    const { value, group, totals } = problem;
    const solve = (of: (k: number) => number): Float64Array =>
      this.#factor.solve(Float64Array.from(members, of));
    const pull = this.#pullOfHeld();
    const at = solve((k) => -pull[k]!);
    // What all free candidates of a group have in common moves none of them: without it, fewer digits are lost.
    const common = totals.map((_, of) => value[members.find((k) => group[k] === of) ?? 0] ?? 0);
    const slope = solve((k) => value[k]! - common[group[k]!]!);
    const rounding = 1e-12 * slope.reduce((top, each) => Math.max(top, Math.abs(each)), 0);
    const groups = totals.map((_, of) => of).filter((of) => members.some((k) => group[k] === of));
    const columns = groups.map((of) => solve((k) => (group[k] === of ? 1 : 0)));
    const sumsOf = (list: Float64Array): number[] =>
      groups.map((of) => members.reduce((sum, k, i) => sum + (group[k] === of ? list[i]! : 0), 0));
    const wanted = groups.map((of) => {
      let rest = totals[of]!;
      group.forEach((own, k) => (rest -= own === of ? this.held[k]! : 0));
      return rest;
    });
    const matrix = columns.map(sumsOf);
    const apply = (list: Float64Array, target: readonly number[]): Float64Array => {
      const sums = sumsOf(list);
      const weights = solveSmall(
        matrix,
        target.map((want, g) => want - sums[g]!),
      );
      weights.forEach((weight, g) => columns[g]!.forEach((each, i) => (list[i]! += weight * each)));
      const multipliers = new Float64Array(totals.length);
      groups.forEach((of, g) => (multipliers[of] = weights[g]!));
      return multipliers;
    };
    const multiplierAt = apply(at, wanted);
    const multiplierSlope = apply(
      slope,
      groups.map(() => 0),
    );
    groups.forEach((of) => (multiplierSlope[of]! -= common[of]!));
    slope.forEach((each, i) => (slope[i] = Math.abs(each) <= rounding ? 0 : each));
    return { at, slope, multiplierAt, multiplierSlope };
  }

  /** K times the contributions of those that are held. */
  #pullOfHeld(): Float64Array {
    const { coancestry, ids } = this.problem;
    const size = ids.length;
    const pull = new Float64Array(size);
    this.held.forEach((share, k) => {
      if (share === 0) return;
      const row = k * size;
      for (let j = 0; j < size; j++) pull[j]! += share * coancestry[row + j]!;
    });
    return pull;
  }
}

/** Solves a symmetric system of a few equations by elimination. */
function solveSmall(matrix: readonly (readonly number[])[], side: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, side[i]!]);
  const size = rows.length;
  for (let j = 0; j < size; j++) {
    const best = rows.reduce(
      (top, row, i) => (i > j && Math.abs(row[j]!) > Math.abs(rows[top]![j]!) ? i : top),
      j,
    );
    [rows[j], rows[best]] = [rows[best]!, rows[j]!];
    for (let i = 0; i < size; i++) {
      if (i === j) continue;
      const share = rows[i]![j]! / rows[j]![j]!;
      for (let c = j; c <= size; c++) rows[i]![c]! -= share * rows[j]![c]!;
    }
  }
  return rows.map((row, i) => row[size]! / row[i]!);
}
