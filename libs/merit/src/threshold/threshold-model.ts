import { MeritError } from '../merit-error.js';
import { diagonalOf, type LinearMatrix, LinearMatrixBuilder } from '../sparse/linear-matrix.js';
import { orderByUnits } from '../sparse/ordering.js';
import { NotPositiveDefinite, SparseCholesky } from '../sparse/sparse-cholesky.js';
import { sparseInverse } from '../sparse/sparse-inverse.js';
import { symbolicFactor, type SymbolicFactor } from '../sparse/symbolic-factor.js';
import { ThresholdHeight } from './threshold-height.js';
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
  /** Of the observed information. */
  readonly factor: SparseCholesky;
  /** ln likelihood of the scores at the mode. */
  readonly logLikelihood: number;
  /** ln density of the scores, effects integrated out by Laplace's approximation (fixed effects and thresholds flat). */
  readonly logMarginal: number;
  readonly iterations: number;
}

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
  readonly #of: ThresholdHeight;

  constructor(
    readonly prepared: Prepared,
    readonly variances: readonly number[],
  ) {
    this.#of = new ThresholdHeight(prepared.model, prepared.equations, variances);
  }

  get model(): ThresholdParts {
    return this.prepared.model;
  }

  get equations(): ThresholdEquations {
    return this.prepared.equations;
  }

  run(): ThresholdSolution {
    let at = this.equations.start;
    let height = this.#of.height(at);
    for (let step = 1; step <= 60; step++) {
      const { factor, gradient } = this.#curvature(at);
      const direction = factor.solve(gradient);
      const gain = direction.reduce((sum, d, k) => sum + d * gradient[k]!, 0);
      let share = 1;
      let next = at;
      let risen = -Infinity;
      for (; share > 1e-6; share /= 2) {
        next = at.map((value, k) => value + share * direction[k]!);
        risen = this.#of.height(next);
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

  #curvature(at: Float64Array) {
    const { size, rows, eachPrior } = this.equations;
    const { builder } = this.prepared;
    builder.again();
    for (let i = 0; i < size; i++) builder.add(0, i, i, 0);
    this.#of.eachRow(at, (row, { lowLow, highHigh, lowHigh, lower, upper }) => {
      if (upper >= 0) builder.add(0, upper, upper, -highHigh);
      if (lower >= 0) builder.add(0, lower, lower, -lowLow);
      if (upper >= 0 && lower >= 0) builder.add(0, upper, lower, -lowHigh);
      rows.addProducts(builder, 0, row, -(highHigh + lowLow + 2 * lowHigh));
      if (upper >= 0) rows.addColumn(builder, 0, row, upper, highHigh + lowHigh);
      if (lower >= 0) rows.addColumn(builder, 0, row, lower, lowLow + lowHigh);
    });
    eachPrior(this.variances, (i, j, value) => builder.add(0, i, j, value));
    try {
      return { gradient: this.#of.gradient(at), ...this.#factored() };
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
      this.#of.height(at) - 0.5 * factor.logDeterminant + 0.5 * flat * Math.log(2 * Math.PI);
    model.random.forEach(({ levels, inverse: k }, term) => {
      logMarginal -= 0.5 * (levels * Math.log(this.variances[term]!) + (k?.logDeterminant ?? 0));
    });
    let errors: Float64Array | undefined;
    return {
      equations,
      thresholds: at.slice(0, equations.classes - 1),
      solution: at,
      factor,
      get errorVariances() {
        errors ??= diagonalOfInverse(matrix, factor);
        return errors;
      },
      logLikelihood: this.#of.logLikelihood(at),
      logMarginal,
      iterations,
    };
  }
}

function diagonalOfInverse(matrix: LinearMatrix, factor: SparseCholesky): Float64Array {
  return diagonalOf(matrix, sparseInverse(factor, matrix.row.length));
}
