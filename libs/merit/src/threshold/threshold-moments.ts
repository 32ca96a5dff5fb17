import { MeritError } from '../merit-error.js';
import { diagonalOf, type LinearMatrix, placeOf } from '../sparse/linear-matrix.js';
import { NotPositiveDefinite } from '../sparse/sparse-cholesky.js';
import { sparseInverse } from '../sparse/sparse-inverse.js';
import { classChance, type ChanceSlopes, type Ends, type EndsBelief } from './class-chance.js';
import { thresholdEquations, type ThresholdEquations } from './threshold-equations.js';
import { type EachBend, type Factored, ThresholdMatrix } from './threshold-matrix.js';
import {
  endlessEffects,
  expectAboveNothing,
  logVolume,
  ThresholdSolver,
} from './threshold-model.js';
import type { ThresholdParts } from './threshold-parts.js';

/** Means and variances of thresholds and effects, and how likely the scores are with all of them integrated out. */
export interface ThresholdMoments {
  readonly equations: ThresholdEquations;
  /** Means of thresholds, fixed effects, random effects, in the order of the equations; the residual's variance is 1. */
  readonly mean: Float64Array;
  readonly variance: Float64Array;
  /** ln density of the scores, thresholds flat before, and fixed effects where no deviation of theirs is given. */
  readonly logMarginal: number;
  readonly sweeps: number;
}

/** Sweeps at most; some six to ten do. */
const MOST_SWEEPS = 100;
/** A sweep that moves no end of a class by more than this part of its standard deviation was the last. */
const SETTLED = 1e-4;
/**
 * The threshold model by expectation propagation: what each row says is replaced by the normal density that leaves the same mean and variance
 * of the row's own liability and thresholds, given all other rows, until nothing moves. Means rather than modes, and a marginal density that
 * stays right where Laplace's approximation leans low (yes or no, few looks a fish).
 *
 * Source: Minka TP (2001) Proc 17th Conf Uncertainty in Artificial Intelligence 362-369 (from memory); held against Laplace's approximation and
 * long simulation by Kuss M & Rasmussen CE (2005) NIPS 18 and Nickisch H & Rasmussen CE (2008) J Mach Learn Res 9:2035-2078 (abstracts read).
 * Cost: a factorisation and its sparse inverse a sweep, some six to ten sweeps.
 */
export class MomentsSolver {
  readonly #equations: ThresholdEquations;
  readonly #matrix: ThresholdMatrix;
  readonly #rows: Int32Array;
  #ends: EndsOfRows | undefined;
  #settledSites: readonly Site[] | undefined;

  /**
   * @throws MeritError MERIT_TOO_FEW when fewer than two classes occur; MERIT_NOT_CONVERGED when a fixed level, flat before, has all its fish at one end;
   * MERIT_OUT_OF_RANGE for rows of several looks, or a logistic liability. Cost: where fixed effects are flat, the joint mode once.
   */
  constructor(readonly model: ThresholdParts) {
    if (model.counts !== undefined || model.link === 'logit')
      throw new MeritError(
        'MERIT_OUT_OF_RANGE',
        'One look a row and a normal liability are asked for.',
      );
    // Where no mode is, there are no means either, and sweeps might settle far out for all that.
    if (model.fixedDeviation === undefined)
      void new ThresholdSolver(model).at(model.random.map(() => 1));
    this.#equations = thresholdEquations(model);
    this.#matrix = new ThresholdMatrix(this.#equations);
    this.#rows = Int32Array.from(model.scores.keys()).filter((row) => model.scores[row]! >= 0);
  }

  /**
   * Begins from where the last call settled: neighbouring variances take half as many sweeps, and settle at the same place.
   * @throws MeritError MERIT_OUT_OF_RANGE, MERIT_NOT_CONVERGED.
   */
  at(variances: readonly number[]): ThresholdMoments {
    expectAboveNothing(variances);
    const from = this.#settledSites;
    const settled =
      (from && this.#settle(variances, from)) ?? this.#settle(variances, this.#firstSites());
    if (settled === null) throw endlessEffects();
    this.#settledSites = settled.sites;
    return settled.moments;
  }

  /** Sweeps until nothing moves; null where it comes to no end. */
  #settle(
    variances: readonly number[],
    from: readonly Site[],
  ): { readonly moments: ThresholdMoments; readonly sites: readonly Site[] } | null {
    let sites = from;
    let [share, last] = [1, Infinity];
    for (let sweep = 1; sweep <= MOST_SWEEPS; sweep++) {
      const normal = this.#normal(sites, variances);
      if (normal === null) return null;
      const next = this.#swept(sites, normal, share);
      if (!(next.moved < Infinity)) return null;
      if (next.moved < SETTLED) {
        const { mean, matrix, inverse, logHeld } = normal;
        const moments = {
          equations: this.#equations,
          mean,
          variance: diagonalOf(matrix, inverse),
          logMarginal: logHeld + next.logScales,
          sweeps: sweep,
        };
        return { moments, sites };
      }
      // Where it swings to and fro, smaller steps.
      if (next.moved > 0.9 * last) share = Math.max(0.2, 0.7 * share);
      last = next.moved;
      sites = next.sites;
    }
    return null;
  }

  /** What rows say at the thresholds of the shares of the classes, all effects at 0: the first step of Newton's method. */
  #firstSites(): Site[] {
    const { start } = this.#equations;
    return Array.from(this.#rows, (row) => {
      const { lower, upper } = this.#classOf(row);
      const belief = {
        high: upper < 0 ? 0 : start[upper]!,
        low: lower < 0 ? 0 : start[lower]!,
        spread: NONE,
      };
      const said = classChance(belief, upper >= 0, lower >= 0);
      return said === null ? NO_SITE : siteOf(belief, said);
    });
  }

  #classOf(row: number): { readonly lower: number; readonly upper: number } {
    const score = this.model.scores[row]!;
    return { lower: score - 1, upper: score < this.#equations.classes - 1 ? score : -1 };
  }

  /** The normal density that all sites make together with that of the random effects; null where they make none. */
  #normal(sites: readonly Site[], variances: readonly number[]): Normal | null {
    const { size, rows } = this.#equations;
    const eachBend: EachBend = (visit) =>
      this.#rows.forEach((row, k) => {
        const { hh, ll, hl } = sites[k]!.precision;
        visit(row, { highHigh: hh, lowLow: ll, lowHigh: hl, ...this.#classOf(row) });
      });
    const side = new Float64Array(size);
    this.#rows.forEach((row, k) => {
      const { high, low } = sites[k]!;
      const { lower, upper } = this.#classOf(row);
      if (upper >= 0) side[upper]! += high;
      if (lower >= 0) side[lower]! += low;
      rows.addTo(row, -(high + low), side);
    });
    const factored = this.#factored(eachBend, variances);
    if (factored === null) return null;
    const { matrix, factor } = factored;
    const mean = factor.solve(side);
    return {
      ...{ matrix, mean, inverse: sparseInverse(factor, matrix.row.length) },
      logHeld:
        0.5 * mean.reduce((sum, m, k) => sum + m * side[k]!, 0) +
        logVolume(this.model, this.#equations, variances, factor),
    };
  }

  #factored(eachBend: EachBend, variances: readonly number[]): Factored | null {
    try {
      return this.#matrix.factored(eachBend, variances);
    } catch (error) {
      if (error instanceof NotPositiveDefinite) return null;
      throw error;
    }
  }

  /** All sites renewed at once, each from what the others say; how far the farthest end of a class would move. */
  #swept(sites: readonly Site[], normal: Normal, share: number): Swept {
    this.#ends ??= new EndsOfRows(this.#equations, normal.matrix, this.#rows, (row) =>
      this.#classOf(row),
    );
    let [moved, logScales] = [0, 0];
    const next = sites.map((site, k): Site => {
      const { lower, upper } = this.#classOf(this.#rows[k]!);
      const belief = this.#ends!.belief(k, normal);
      const others = without(belief, site);
      const said = others === null ? null : classChance(others, upper >= 0, lower >= 0);
      if (others === null || said === null) return site;
      logScales += said.logChance - logSiteHolds(belief, others, site);
      const { spread } = others;
      const high = others.high + spread.hh * said.high + spread.hl * said.low;
      const low = others.low + spread.hl * said.high + spread.ll * said.low;
      moved = Math.max(
        moved,
        Math.abs(high - belief.high) / Math.sqrt(belief.spread.hh),
        Math.abs(low - belief.low) / Math.sqrt(belief.spread.ll),
      );
      return between(site, siteOf(others, said), share);
    });
    return { sites: next, moved, logScales };
  }
}

/** What a row says of the ends of its class, put as a normal density: its precision, and that times its place. */
interface Site {
  readonly precision: Ends;
  readonly high: number;
  readonly low: number;
}

interface Normal {
  readonly matrix: LinearMatrix;
  readonly mean: Float64Array;
  /** At the places of the matrix. */
  readonly inverse: Float64Array;
  /** ln of what it holds together with the sites. */
  readonly logHeld: number;
}

interface Swept {
  readonly sites: Site[];
  /** In standard deviations. */
  readonly moved: number;
  /** What the sites' heights add to the marginal density, in ln. */
  readonly logScales: number;
}

const NONE: Ends = { hh: 0, ll: 0, hl: 0 };
const NO_SITE: Site = { precision: NONE, high: 0, low: 0 };

/** The inverse of the identity less or plus a product of two symmetric matrices: M = (I + sign A B)^-1, by rows. */
function inverseOf(a: Ends, b: Ends, sign: 1 | -1): { m: number[]; determinant: number } {
  const p = 1 + sign * (a.hh * b.hh + a.hl * b.hl);
  const q = sign * (a.hh * b.hl + a.hl * b.ll);
  const r = sign * (a.hl * b.hh + a.ll * b.hl);
  const s = 1 + sign * (a.hl * b.hl + a.ll * b.ll);
  const determinant = p * s - q * r;
  return { m: [s / determinant, -q / determinant, -r / determinant, p / determinant], determinant };
}

/** What all other rows say: the belief without a site. Null where they would say less than nothing. */
function without({ high, low, spread }: EndsBelief, site: Site): EndsBelief | null {
  const { m, determinant } = inverseOf(spread, site.precision, -1);
  if (!(determinant > 0)) return null;
  const [a, b, c, d] = m as [number, number, number, number];
  const h = high - spread.hh * site.high - spread.hl * site.low;
  const l = low - spread.hl * site.high - spread.ll * site.low;
  const left = {
    hh: a * spread.hh + b * spread.hl,
    hl: a * spread.hl + b * spread.ll,
    ll: c * spread.hl + d * spread.ll,
  };
  const sound = left.hh > 0 && left.ll > 0 && left.hh * left.ll - left.hl ** 2 > 0;
  return sound ? { high: a * h + b * l, low: c * h + d * l, spread: left } : null;
}

/** The site that leaves mean and variance as seeing the class does. */
function siteOf({ high, low, spread }: EndsBelief, said: ChanceSlopes): Site {
  // T = -(I + H V)^-1 H, and T times the mean plus (I + H V)^-1 g.
  const { m } = inverseOf(said.bend, spread, 1);
  const [a, b, c, d] = m as [number, number, number, number];
  const { hh, ll, hl } = said.bend;
  const precision = { hh: -(a * hh + b * hl), hl: -(a * hl + b * ll), ll: -(c * hl + d * ll) };
  return {
    precision,
    high: precision.hh * high + precision.hl * low + a * said.high + b * said.low,
    low: precision.hl * high + precision.ll * low + c * said.high + d * said.low,
  };
}

const between = (before: Site, after: Site, share: number): Site => {
  const at = (from: number, to: number): number => from + share * (to - from);
  const [p, q] = [before.precision, after.precision];
  return {
    precision: { hh: at(p.hh, q.hh), ll: at(p.ll, q.ll), hl: at(p.hl, q.hl) },
    high: at(before.high, after.high),
    low: at(before.low, after.low),
  };
};

/** ln of the mean of a site's density, unscaled, over what the others say. */
function logSiteHolds(
  { high, low, spread }: EndsBelief,
  others: EndsBelief,
  { precision, high: sh, low: sl }: Site,
): number {
  const determinant = spread.hh * spread.ll - spread.hl ** 2;
  // Precision times mean, of all together and of the others.
  const [bh, bl] = [
    (spread.ll * high - spread.hl * low) / determinant,
    (spread.hh * low - spread.hl * high) / determinant,
  ];
  const square = bh * high + bl * low - (bh - sh) * others.high - (bl - sl) * others.low;
  return 0.5 * (square - Math.log(inverseOf(others.spread, precision, 1).determinant));
}

/** Mean and spread of the ends of each row's class, less its liability, out of a normal density of all equations. */
class EndsOfRows {
  readonly #start: Int32Array;
  readonly #place: number[] = [];
  readonly #weight: number[] = [];
  /** What an entry adds to: 0 the liability's variance, 1 and 2 its covariance with the upper and the lower end. */
  readonly #of: number[] = [];
  /** Places of the ends among themselves, -1 where one is open. */
  readonly #endPlaces: Int32Array;

  constructor(
    readonly equations: ThresholdEquations,
    matrix: LinearMatrix,
    readonly rows: Int32Array,
    readonly classOf: (row: number) => { readonly lower: number; readonly upper: number },
  ) {
    this.#start = new Int32Array(rows.length + 1);
    this.#endPlaces = new Int32Array(3 * rows.length).fill(-1);
    rows.forEach((row, k) => {
      const { lower, upper } = classOf(row);
      const add = (of: number, i: number, j: number, weight: number): void => {
        this.#of.push(of);
        this.#place.push(placeOf(matrix, i, j));
        this.#weight.push(weight);
      };
      equations.rows.each(row, (i, v) => {
        equations.rows.each(row, (j, w) => add(0, i, j, v * w));
        if (upper >= 0) add(1, i, upper, v);
        if (lower >= 0) add(2, i, lower, v);
      });
      if (upper >= 0) this.#endPlaces[3 * k] = placeOf(matrix, upper, upper);
      if (lower >= 0) this.#endPlaces[3 * k + 1] = placeOf(matrix, lower, lower);
      if (upper >= 0 && lower >= 0) this.#endPlaces[3 * k + 2] = placeOf(matrix, upper, lower);
      this.#start[k + 1] = this.#of.length;
    });
  }

  belief(k: number, { mean, inverse }: Normal): EndsBelief {
    const sums: [number, number, number] = [0, 0, 0];
    for (let e = this.#start[k]!; e < this.#start[k + 1]!; e++)
      sums[this.#of[e] as 0 | 1 | 2] += this.#weight[e]! * inverse[this.#place[e]!]!;
    const [own, withUpper, withLower] = sums;
    const row = this.rows[k]!;
    const { lower, upper } = this.classOf(row);
    const liability = this.equations.rows.times(row, mean);
    const at = (end: number): number => inverse[this.#endPlaces[3 * k + end]!]!;
    return {
      high: upper < 0 ? 0 : mean[upper]! - liability,
      low: lower < 0 ? 0 : mean[lower]! - liability,
      spread: {
        hh: upper < 0 ? 1 : at(0) - 2 * withUpper + own,
        ll: lower < 0 ? 1 : at(1) - 2 * withLower + own,
        hl: upper < 0 || lower < 0 ? 0 : at(2) - withUpper - withLower + own,
      },
    };
  }
}
