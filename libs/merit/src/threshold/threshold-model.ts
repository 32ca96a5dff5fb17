import { normalBelow, normalDensity } from '../distributions.js';
import { MeritError } from '../merit-error.js';
import { diagonalOf, type LinearMatrix, LinearMatrixBuilder } from '../sparse/linear-matrix.js';
import { orderByUnits } from '../sparse/ordering.js';
import { NotPositiveDefinite, SparseCholesky } from '../sparse/sparse-cholesky.js';
import { sparseInverse } from '../sparse/sparse-inverse.js';
import { symbolicFactor, type SymbolicFactor } from '../sparse/symbolic-factor.js';
import type { ThresholdParts } from './threshold-parts.js';
import { thresholdEquations, type ThresholdEquations } from './threshold-equations.js';

export interface ThresholdModel extends ThresholdParts {
  /** Of each random term, on the scale on which the residual is 1 (probit). */
  readonly variances: readonly number[];
}

/** The joint mode of thresholds and effects, with its errors. */
export interface ThresholdSolution {
  readonly equations: ThresholdEquations;
  readonly thresholds: Float64Array;
  /** All: thresholds, fixed effects, random effects, in the order of the equations. */
  readonly solution: Float64Array;
  /** From the inverse of the observed information; worked out when asked for. */
  readonly errorVariances: Float64Array;
  /** ln likelihood of the scores at the mode. */
  readonly logLikelihood: number;
  /** ln density of the scores, effects integrated out by Laplace's approximation (fixed effects and thresholds flat). */
  readonly logMarginal: number;
  readonly iterations: number;
}

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

/**
 * The threshold model: a class is k or below when an unseen liability, fixed + random + residual, lies below threshold k. The joint
 * mode of all effects at given variances, by Newton's method on the observed information.
 *
 * Source: Gianola D & Foulley JL (1983) Genet Sel Evol 15:201-224.
 * Cost: a sparse factorisation a step, some six steps.
 * @throws MeritError MERIT_TOO_FEW when fewer than two classes occur, MERIT_NOT_CONVERGED when a fixed level has all its fish at one end.
 */
export function solveThreshold(model: ThresholdModel): ThresholdSolution {
  return new ThresholdSolver(model).at(model.variances);
}

/** What is the same whatever the variances: numbering, and the pattern of the equations once it is known. */
interface Prepared {
  readonly model: ThresholdParts;
  readonly equations: ThresholdEquations;
  readonly builder: LinearMatrixBuilder;
  pattern: { readonly matrix: LinearMatrix; readonly symbolic: SymbolicFactor } | null;
}

/** Solves one model at many sets of variances: as {@link solveThreshold}, with all that does not change worked out once. */
export class ThresholdSolver {
  readonly #prepared: Prepared;

  /** @throws MeritError MERIT_TOO_FEW when fewer than two classes occur. */
  constructor(model: ThresholdParts) {
    const equations = thresholdEquations(model);
    const builder = new LinearMatrixBuilder(equations.size);
    this.#prepared = { model, equations, builder, pattern: null };
  }

  /**
   * Always from the same beginning: where a level has nearly all its fish at one end, the height is so flat that a mode found from a
   * neighbouring one would lie further out, and the two could not be weighed against each other.
   */
  at(variances: readonly number[]): ThresholdSolution {
    if (variances.some((variance) => !(variance > 0)))
      throw new MeritError('MERIT_OUT_OF_RANGE', 'Each variance must lie above 0.', { variances });
    return new ModeSearch(this.#prepared, variances).run();
  }
}

class ModeSearch {
  readonly #link: Link;
  /** The last place whose chances were worked out. */
  #known: { readonly at: Float64Array; readonly chances: Float64Array } | undefined;

  constructor(
    readonly prepared: Prepared,
    readonly variances: readonly number[],
  ) {
    this.#link = LINKS[prepared.model.link ?? 'probit'];
  }

  get model(): ThresholdParts {
    return this.prepared.model;
  }

  get equations(): ThresholdEquations {
    return this.prepared.equations;
  }

  run(): ThresholdSolution {
    let at = this.equations.start;
    let height = this.#height(at);
    for (let step = 1; step <= 60; step++) {
      const { factor, gradient } = this.#curvature(at);
      const direction = factor.solve(gradient);
      const gain = direction.reduce((sum, d, k) => sum + d * gradient[k]!, 0);
      let share = 1;
      let next = at;
      let risen = -Infinity;
      for (; share > 1e-6; share /= 2) {
        next = at.map((value, k) => value + share * direction[k]!);
        risen = this.#height(next);
        if (risen >= height - 1e-12 * Math.abs(height)) break;
      }
      at = next;
      height = risen;
      if (gain < 1e-16 * (1 + Math.abs(height)) || gain < 1e-18) return this.#result(at, step);
      if (gain < 1e-12 && share === 1) return this.#result(at, step);
    }
    throw this.#endless();
  }

  #endless(): MeritError {
    return new MeritError(
      'MERIT_NOT_CONVERGED',
      'The effects grow without end: all fish of some level fall in one class at the end of the scale. Join that level with another, or fit the column as common effect.',
    );
  }

  /** Likelihood times the density of the random effects, as a logarithm. */
  #height(at: Float64Array): number {
    return this.#logLikelihood(at) - 0.5 * this.#penalty(at);
  }

  #logLikelihood(at: Float64Array): number {
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

  #chances(at: Float64Array): Float64Array {
    if (this.#known?.at !== at) this.#logLikelihood(at);
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

  #curvature(at: Float64Array) {
    const { size, rows, classes, eachPrior } = this.equations;
    const { scores, counts } = this.model;
    const { builder } = this.prepared;
    builder.again();
    const gradient = new Float64Array(size);
    const chances = this.#chances(at);
    for (let i = 0; i < size; i++) builder.add(0, i, i, 0);
    for (let row = 0; row < scores.length; row++) {
      const score = scores[row]!;
      if (score < 0) continue;
      const count = counts?.[row] ?? 1;
      const [low, high] = this.#bounds(at, score, rows.times(row, at));
      const p = chances[row]!;
      const [fl, fh] = [this.#link.density(low), this.#link.density(high)];
      const [gl, gh] = [(count * -fl) / p, (count * fh) / p];
      const hh = count * (this.#link.slope(high) / p - (fh / p) ** 2);
      const ll = count * (-this.#link.slope(low) / p - (fl / p) ** 2);
      const lh = (count * fl * fh) / p ** 2;
      const [upper, lower] = [score < classes - 1 ? score : -1, score - 1];
      if (upper >= 0) {
        gradient[upper]! += gh;
        builder.add(0, upper, upper, -hh);
      }
      if (lower >= 0) {
        gradient[lower]! += gl;
        builder.add(0, lower, lower, -ll);
      }
      if (upper >= 0 && lower >= 0) builder.add(0, upper, lower, -lh);
      rows.addTo(row, -(gl + gh), gradient);
      rows.addProducts(builder, 0, row, -(hh + ll + 2 * lh));
      if (upper >= 0) rows.addColumn(builder, 0, row, upper, hh + lh);
      if (lower >= 0) rows.addColumn(builder, 0, row, lower, ll + lh);
    }
    eachPrior(this.variances, (i, j, value) => {
      builder.add(0, i, j, value);
      gradient[i]! -= value * at[j]!;
      if (i !== j) gradient[j]! -= value * at[i]!;
    });
    try {
      return { gradient, ...this.#factored() };
    } catch (error) {
      if (error instanceof NotPositiveDefinite) throw this.#endless();
      throw error;
    }
  }

  #factored(): { readonly matrix: LinearMatrix; readonly factor: SparseCholesky } {
    const { prepared } = this;
    const { unitOf, units } = prepared.equations;
    if (prepared.pattern === null) {
      const matrix = prepared.builder.build(1);
      const symbolic = symbolicFactor(matrix, orderByUnits(matrix, unitOf, units)!);
      prepared.pattern = { matrix, symbolic };
    }
    const { matrix, symbolic } = prepared.pattern;
    return { matrix, factor: new SparseCholesky(symbolic, prepared.builder.refilled(matrix)) };
  }

  #result(at: Float64Array, iterations: number): ThresholdSolution {
    const { matrix, factor } = this.#curvature(at);
    const { equations, model } = this;
    const flat = equations.size - equations.randomEquations;
    let logMarginal =
      this.#height(at) - 0.5 * factor.logDeterminant + 0.5 * flat * Math.log(2 * Math.PI);
    model.random.forEach(({ levels, inverse: k }, term) => {
      logMarginal -= 0.5 * (levels * Math.log(this.variances[term]!) + (k?.logDeterminant ?? 0));
    });
    let errors: Float64Array | undefined;
    return {
      equations,
      thresholds: at.slice(0, equations.classes - 1),
      solution: at,
      get errorVariances() {
        errors ??= diagonalOfInverse(matrix, factor);
        return errors;
      },
      logLikelihood: this.#logLikelihood(at),
      logMarginal,
      iterations,
    };
  }
}

function diagonalOfInverse(matrix: LinearMatrix, factor: SparseCholesky): Float64Array {
  return diagonalOf(matrix, sparseInverse(factor, matrix.row.length));
}
