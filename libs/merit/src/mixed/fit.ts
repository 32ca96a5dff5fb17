import { NotPositiveDefinite, SparseCholesky } from '../sparse/sparse-cholesky.js';
import { diagonalOf } from '../sparse/linear-matrix.js';
import { sparseInverse } from '../sparse/sparse-inverse.js';
import { MeritError } from '../merit-error.js';
import type { Equations } from './equations.js';
import type { Variances } from './mixed-model.js';
import { invertDefinite, squareOf, type Square } from './small-matrix.js';

/** Inverse covariance matrices of a set of variances. */
export interface InverseVariances {
  readonly random: readonly { readonly inverse: Square; readonly logDeterminant: number }[];
  /** By score pattern; places of traits that are not scored are 0. */
  readonly residual: readonly { readonly inverse: Square; readonly logDeterminant: number }[];
}

/**
 * Inverts G of each term and R of each score pattern.
 *
 * @throws MeritError MERIT_NOT_DEFINITE when one is not positive definite.
 */
export function invertVariances(equations: Equations, variances: Variances): InverseVariances {
  const { model, patterns } = equations;
  const random = model.random.map(({ name, slots }, term) => {
    const inverted = invertDefinite(squareOf(variances.random[term] ?? []), slots.length);
    if (inverted === null) throw notDefinite(name);
    return inverted;
  });
  const traits = model.traits.length;
  const residual = patterns.map(({ traits: scored }) => {
    const part = scored.map((s) => scored.map((t) => variances.residual[s]?.[t] ?? NaN));
    const inverted = invertDefinite(squareOf(part), scored.length);
    if (inverted === null) throw notDefinite('residual');
    const inverse = new Float64Array(traits * traits);
    scored.forEach((s, a) =>
      scored.forEach((t, b) => {
        inverse[s * traits + t] = inverted.inverse[a * scored.length + b]!;
      }),
    );
    return { inverse, logDeterminant: inverted.logDeterminant };
  });
  return { random, residual };
}

function notDefinite(name: string): MeritError {
  return new MeritError(
    'MERIT_NOT_DEFINITE',
    `The variances of "${name}" do not fit together: each must lie above 0, and no correlation may reach 1 or -1.`,
    { name },
  );
}

/** Weights of the matrix's parts for these variances. */
export function partWeights(equations: Equations, inverse: InverseVariances): Float64Array {
  const traits = equations.model.traits.length;
  return Float64Array.from(equations.parts, (key) => {
    if (key.kind === 'residual')
      return inverse.residual[key.pattern]!.inverse[key.s * traits + key.t]!;
    const slots = equations.model.random[key.term]!.slots.length;
    return inverse.random[key.term]!.inverse[key.i * slots + key.j]!;
  });
}

/** R^-1 times values given by trait and row; 0 where nothing is scored. */
export function weighted(
  equations: Equations,
  inverse: InverseVariances,
  values: readonly Float64Array[],
): Float64Array[] {
  const { model, patterns, patternOf } = equations;
  const traits = model.traits.length;
  const result = values.map(() => new Float64Array(model.rows));
  if (traits === 1 && patterns.length === 1) {
    weighOne(values[0]!, patternOf, inverse.residual[0]!.inverse[0]!, model.weights, result[0]!);
    return result;
  }
  for (let row = 0; row < model.rows; row++) {
    const pattern = patternOf[row]!;
    if (pattern < 0) continue;
    const weight = model.weights?.[row] ?? 1;
    const scored = patterns[pattern]!.traits;
    const own = inverse.residual[pattern]!.inverse;
    for (const s of scored) {
      let sum = 0;
      for (const t of scored) sum += own[s * traits + t]! * values[t]![row]!;
      result[s]![row] = weight * sum;
    }
  }
  return result;
}

/** One trait has one weight but for those of its rows. */
function weighOne(
  values: Float64Array,
  patternOf: Int32Array,
  own: number,
  weights: Float64Array | undefined,
  to: Float64Array,
): void {
  for (let row = 0; row < to.length; row++)
    if (patternOf[row]! >= 0) to[row] = (weights?.[row] ?? 1) * own * values[row]!;
}

/** W' times values by trait and row. */
export function rightSide(equations: Equations, values: readonly Float64Array[]): Float64Array {
  const side = new Float64Array(equations.size);
  equations.rows.forEach((entries, t) => {
    const { values: scores } = equations.model.traits[t]!;
    for (let row = 0; row < scores.length; row++)
      if (!Number.isNaN(scores[row]!)) entries.addTo(row, values[t]![row]!, side);
  });
  return side;
}

/** W times a solution, by trait and row; 0 where nothing is scored. */
export function fitted(equations: Equations, solution: Float64Array): Float64Array[] {
  return equations.rows.map((entries, t) => {
    const { values } = equations.model.traits[t]!;
    const fit = new Float64Array(values.length);
    for (let row = 0; row < fit.length; row++)
      if (!Number.isNaN(values[row]!)) fit[row] = entries.times(row, solution);
    return fit;
  });
}

export function sumOfProducts(a: readonly Float64Array[], b: readonly Float64Array[]): number {
  let sum = 0;
  a.forEach((values, t) => {
    const other = b[t]!;
    for (let k = 0; k < values.length; k++) sum += values[k]! * other[k]!;
  });
  return sum;
}

/** Scores with 0 for those that are missing. */
export function scoresOf(equations: Equations): Float64Array[] {
  return equations.model.traits.map(({ values }) =>
    values.map((score) => (Number.isNaN(score) ? 0 : score)),
  );
}

function factored(equations: Equations, values: Float64Array): SparseCholesky {
  try {
    return new SparseCholesky(equations.symbolic, values);
  } catch (error) {
    if (!(error instanceof NotPositiveDefinite)) throw error;
    throw new MeritError(
      'MERIT_NOT_DEFINITE',
      'These variances lie too far apart for the equations to be solved: check their units.',
      { equation: error.equation },
    );
  }
}

/** What scores say by the equations of one set of variances. */
export type SolvedScores = Pick<Fit, 'equations' | 'inverse' | 'factor' | 'solution' | 'residuals'>;

/** The equations solved by a factor for one set of variances, with the restricted likelihood. */
export class Fit {
  readonly inverse: InverseVariances;
  readonly values: Float64Array;
  readonly factor: SparseCholesky;
  readonly solution: Float64Array;
  /** y - W s, by trait and row. */
  readonly residuals: readonly Float64Array[];
  /** y'Py. */
  readonly quadratic: number;
  readonly logLikelihood: number;
  #inverseValues: Float64Array | undefined;

  /** @throws MeritError MERIT_NOT_DEFINITE. Cost: one factorisation. */
  constructor(
    readonly equations: Equations,
    readonly variances: Variances,
  ) {
    this.inverse = invertVariances(equations, variances);
    this.values = equations.matrix.combine(partWeights(equations, this.inverse));
    this.factor = factored(equations, this.values);
    const scores = scoresOf(equations);
    ({ solution: this.solution, residuals: this.residuals } = this.solveFor(scores));
    const weightedScores = weighted(equations, this.inverse, scores);
    // From the residuals, which loses fewer digits than the difference of two large sums.
    this.quadratic = sumOfProducts(this.residuals, weightedScores);
    this.logLikelihood = -0.5 * this.#deviance();
  }

  /** The same equations with other scores at the same places, by trait and row. Cost: one solution by the factor. */
  solveFor(scores: readonly Float64Array[]): SolvedScores {
    const { equations, inverse, factor } = this;
    const solution = factor.solve(rightSide(equations, weighted(equations, inverse, scores)));
    const fit = fitted(equations, solution);
    const residuals = scores.map((values, t) => values.map((score, row) => score - fit[t]![row]!));
    return { equations, inverse, factor, solution, residuals };
  }

  /** Entries of the inverse at the matrix's places. Cost: about two factorisations, once. */
  get inverseValues(): Float64Array {
    this.#inverseValues ??= sparseInverse(this.factor, this.values.length);
    return this.#inverseValues;
  }

  /** Diagonal of the inverse: error variances of all solutions. */
  errorVariances(): Float64Array {
    return diagonalOf(this.equations.matrix, this.inverseValues);
  }

  #deviance(): number {
    const { equations, inverse } = this;
    const { model, patterns, design } = equations;
    let sum = this.factor.logDeterminant + this.quadratic;
    patterns.forEach(({ rows, traits, logWeights }, k) => {
      sum += rows * inverse.residual[k]!.logDeterminant - traits.length * logWeights;
    });
    model.random.forEach((term, k) => {
      const levels = term.levels - (term.groups?.names.length ?? 0);
      sum += levels * inverse.random[k]!.logDeterminant;
      sum += term.slots.length * (term.inverse?.logDeterminant ?? 0);
    });
    const groups = design.groupsEstimated.flat().filter(Boolean).length;
    return sum + (equations.scores - design.equations.length - groups) * Math.log(2 * Math.PI);
  }
}
