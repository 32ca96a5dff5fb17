import { normalBelow, normalDensity } from '../distributions.js';
import type { ThresholdEquations } from './threshold-equations.js';
import type { ThresholdParts } from './threshold-parts.js';

interface Link {
  readonly below: (z: number) => number;
  readonly density: (z: number) => number;
  /** Derivative of the density. */
  readonly slope: (z: number) => number;
}

const LINKS: Record<'probit' | 'logit', Link> = {
  probit: {
    below: normalBelow,
    density: normalDensity,
    slope: (z) => (Number.isFinite(z) ? -z * normalDensity(z) : 0),
  },
  logit: {
    below: (z) => 1 / (1 + Math.exp(-z)),
    density: (z) => {
      const e = Math.exp(-Math.abs(z));
      return e / (1 + e) ** 2;
    },
    slope: (z) => {
      const e = Math.exp(-Math.abs(z));
      return (-Math.sign(z) * e * (1 - e)) / (1 + e) ** 3;
    },
  },
};

/** First and second derivatives of ln of a row's chance by the ends of its class, less the liability; 0 for an end that is open. */
export interface RowSlopes {
  readonly low: number;
  readonly high: number;
  readonly lowLow: number;
  readonly highHigh: number;
  readonly lowHigh: number;
  /** Thresholds at the ends of the class, -1 where it is open. */
  readonly lower: number;
  readonly upper: number;
}

/** How likely scores are at thresholds and effects: ln likelihood, with the density of the random effects, and its slopes. */
export class ThresholdHeight {
  readonly #link: Link;
  /** The last place whose chances were worked out. */
  #known: { readonly at: Float64Array; readonly chances: Float64Array } | undefined;

  constructor(
    readonly model: ThresholdParts,
    readonly equations: ThresholdEquations,
    readonly variances: readonly number[],
  ) {
    this.#link = LINKS[model.link ?? 'probit'];
  }

  /** Likelihood times the density of the random effects, as a logarithm. */
  height(at: Float64Array): number {
    return this.logLikelihood(at) - 0.5 * this.#penalty(at);
  }

  /** ln likelihood; -Infinity where thresholds are out of order. */
  logLikelihood(at: Float64Array): number {
    const { scores, counts } = this.model;
    const { classes, rows } = this.equations;
    for (let k = 1; k < classes - 1; k++) if (!(at[k]! > at[k - 1]!)) return -Infinity;
    const chances = new Float64Array(scores.length);
    this.#known = { at, chances };
    let sum = 0;
    for (let row = 0; row < scores.length; row++) {
      const score = scores[row]!;
      if (score < 0) continue;
      chances[row] = this.#chance(at, score, rows.times(row, at));
      sum += (counts?.[row] ?? 1) * Math.log(chances[row]!);
    }
    return sum;
  }

  /** Visits each scored row with its slopes at these effects. */
  eachRow(at: Float64Array, visit: (row: number, slopes: RowSlopes) => void): void {
    const { scores, counts } = this.model;
    const { rows, classes } = this.equations;
    const chances = this.#chances(at);
    for (let row = 0; row < scores.length; row++) {
      const score = scores[row]!;
      if (score < 0) continue;
      const count = counts?.[row] ?? 1;
      const [low, high] = this.#bounds(at, score, rows.times(row, at));
      const p = chances[row]!;
      const [fl, fh] = [this.#link.density(low), this.#link.density(high)];
      visit(row, {
        low: (count * -fl) / p,
        high: (count * fh) / p,
        highHigh: count * (this.#link.slope(high) / p - (fh / p) ** 2),
        lowLow: count * (-this.#link.slope(low) / p - (fl / p) ** 2),
        lowHigh: (count * fl * fh) / p ** 2,
        lower: score - 1,
        upper: score < classes - 1 ? score : -1,
      });
    }
  }

  /** Slope of {@link height}. */
  gradient(at: Float64Array): Float64Array {
    const { size, rows, eachPrior } = this.equations;
    const gradient = new Float64Array(size);
    this.eachRow(at, (row, { low, high, lower, upper }) => {
      if (upper >= 0) gradient[upper]! += high;
      if (lower >= 0) gradient[lower]! += low;
      rows.addTo(row, -(low + high), gradient);
    });
    eachPrior(this.variances, (i, j, value) => {
      gradient[i]! -= value * at[j]!;
      if (i !== j) gradient[j]! -= value * at[i]!;
    });
    return gradient;
  }

  #chances(at: Float64Array): Float64Array {
    if (this.#known?.at !== at) this.logLikelihood(at);
    return this.#known!.chances;
  }

  #chance(at: Float64Array, score: number, liability: number): number {
    const [low, high] = this.#bounds(at, score, liability);
    // Far out on the upper side the difference of two numbers near 1 would be lost.
    if (low > 0) return this.#link.below(-low) - this.#link.below(-high);
    return this.#link.below(high) - this.#link.below(low);
  }

  #bounds(at: Float64Array, score: number, liability: number): [low: number, high: number] {
    const last = this.equations.classes - 1;
    return [
      score === 0 ? -Infinity : at[score - 1]! - liability,
      score === last ? Infinity : at[score]! - liability,
    ];
  }

  #penalty(at: Float64Array): number {
    let sum = 0;
    this.equations.eachPrior(this.variances, (i, j, value) => {
      sum += (i === j ? 1 : 2) * value * at[i]! * at[j]!;
    });
    return sum;
  }
}
