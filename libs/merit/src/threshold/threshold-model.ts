import { MeritError } from '../merit-error.js';
import { diagonalOf, type LinearMatrix } from '../sparse/linear-matrix.js';
import { NotPositiveDefinite, type SparseCholesky } from '../sparse/sparse-cholesky.js';
import { sparseInverse } from '../sparse/sparse-inverse.js';
import { ThresholdHeight } from './threshold-height.js';
import { type EachBend, ThresholdMatrix } from './threshold-matrix.js';
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

/** What is the same whatever the variances. */
interface Prepared {
  readonly model: ThresholdParts;
  readonly equations: ThresholdEquations;
  readonly matrix: ThresholdMatrix;
}

/** Solves one model at many sets of variances: as {@link solveThreshold}, with all that does not change worked out once. */
export class ThresholdSolver {
  readonly #prepared: Prepared;

  /** @throws MeritError MERIT_TOO_FEW when fewer than two classes occur. */
  constructor(model: ThresholdParts) {
    const equations = thresholdEquations(model);
    this.#prepared = { model, equations, matrix: new ThresholdMatrix(equations) };
  }

  /**
   * Always from the same beginning: where a level has nearly all its fish at one end, the height is so flat that a mode found from a
   * neighbouring one would lie further out, and the two could not be weighed against each other.
   */
  at(variances: readonly number[]): ThresholdSolution {
    expectAboveNothing(variances);
    return new ModeSearch(this.#prepared, variances).run();
  }
}

/** Near a mode each step doubles the digits, and six to ten do; where there is none, steps creep outwards without end. */
const MOST_STEPS = 20;

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
    for (let step = 1; step <= MOST_STEPS; step++) {
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
    throw endlessEffects();
  }

  #curvature(at: Float64Array) {
    const eachBend: EachBend = (visit) =>
      this.#of.eachRow(at, (row, { highHigh, lowLow, lowHigh, lower, upper }) =>
        visit(row, { highHigh: -highHigh, lowLow: -lowLow, lowHigh: -lowHigh, lower, upper }),
      );
    try {
      const factored = this.prepared.matrix.factored(eachBend, this.variances);
      return { gradient: this.#of.gradient(at), ...factored };
    } catch (error) {
      if (error instanceof NotPositiveDefinite) throw endlessEffects();
      throw error;
    }
  }

  #result(at: Float64Array, iterations: number): ThresholdSolution {
    const { matrix, factor } = this.#curvature(at);
    const { equations, model } = this;
    const logMarginal = this.#of.height(at) + logVolume(model, equations, this.variances, factor);
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

/** @throws MeritError MERIT_OUT_OF_RANGE. */
export function expectAboveNothing(variances: readonly number[]): void {
  if (variances.some((variance) => !(variance > 0)))
    throw new MeritError('MERIT_OUT_OF_RANGE', 'Each variance must lie above 0.', { variances });
}

export const endlessEffects = (): MeritError =>
  new MeritError(
    'MERIT_NOT_CONVERGED',
    'The effects grow without end: all fish of some level fall in one class at the end of the scale. Join that level with another, or fit the column as common effect.',
  );

/** ln of what a normal density of this precision holds, over that of the effects before: thresholds are flat, and fixed effects may be. */
export function logVolume(
  { random, fixedDeviation }: ThresholdParts,
  { classes, fixed, eachPrior }: ThresholdEquations,
  variances: readonly number[],
  factor: SparseCholesky,
): number {
  const ends = classes - 1;
  let spread = random.reduce(
    (sum, { levels, inverse }, term) =>
      sum + levels * Math.log(variances[term]!) + (inverse?.logDeterminant ?? 0),
    0,
  );
  eachPrior(variances, (i, j, value) => {
    if (i === j && i < ends + fixed.length) spread -= Math.log(value);
  });
  const flat = fixedDeviation === undefined ? ends + fixed.length : ends;
  return 0.5 * (flat * Math.log(2 * Math.PI) - factor.logDeterminant - spread);
}

function diagonalOfInverse(matrix: LinearMatrix, factor: SparseCholesky): Float64Array {
  return diagonalOf(matrix, sparseInverse(factor, matrix.row.length));
}
