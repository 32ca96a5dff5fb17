import { MeritError } from '../merit-error.js';
import type { Equations } from './equations.js';
import { invertVariances, partWeights, rightSide, scoresOf, weighted } from './fit.js';
import type { LinearMatrix } from '../sparse/linear-matrix.js';
import type { Variances } from './mixed-model.js';
import { choleskyOf, solveFactored, type Square } from './small-matrix.js';

export interface IterationOptions {
  /** Length of the remainder over that of the right-hand side at which to stop. Default 1e-10. */
  readonly tolerance?: number;
  /** Default 5000. */
  readonly steps?: number;
  /** Called after each step, for progress and for stopping: return false to stop. */
  readonly onStep?: (step: number, remainder: number) => boolean;
  /** Solutions to begin from, such as those before some scores more. */
  readonly start?: Float64Array;
}

export interface Iterated {
  readonly solution: Float64Array;
  readonly steps: number;
  readonly remainder: number;
}

/**
 * Solves the equations by preconditioned conjugate gradients, for pedigrees whose factor would be too large. Gives no errors.
 *
 * Blocks of one fish's traits and of all fixed equations of one trait precondition. Source: Strandén I & Lidauer M (1999) J Dairy Sci
 * 82:2779-2787 (conjugate gradients for mixed models).
 * @throws MeritError MERIT_NOT_CONVERGED, also when stopped; MERIT_NOT_DEFINITE. Cost: entries of the equations a step.
 */
export function iterate(
  equations: Equations,
  variances: Variances,
  options: IterationOptions = {},
): Iterated {
  return iteration(equations, variances)(scoresOf(equations), options);
}

/** The same for scores that are given later, by trait and row, so that what they have in common is worked out once. */
export function iteration(
  equations: Equations,
  variances: Variances,
): (scores: readonly Float64Array[], options?: IterationOptions) => Iterated {
  const inverse = invertVariances(equations, variances);
  const solve = iterationForSides(equations, variances);
  return (scores, options = {}) =>
    solve(rightSide(equations, weighted(equations, inverse, scores)), options);
}

/** The same for right-hand sides of any kind, such as one row of the equations. */
export function iterationForSides(
  equations: Equations,
  variances: Variances,
): (side: Float64Array, options?: IterationOptions) => Iterated {
  const inverse = invertVariances(equations, variances);
  const values = equations.matrix.combine(partWeights(equations, inverse));
  const precondition = preconditioner(equations, values);
  return (side, options = {}) =>
    conjugateGradients(equations.matrix, values, side, precondition, options);
}

function conjugateGradients(
  matrix: LinearMatrix,
  values: Float64Array,
  side: Float64Array,
  precondition: (r: Float64Array, z: Float64Array) => void,
  { tolerance = 1e-10, steps = 5000, onStep = () => true, start }: IterationOptions,
): Iterated {
  const { size } = matrix;
  const x = start?.slice() ?? new Float64Array(size);
  const product = new Float64Array(size);
  matrix.multiply(values, x, product);
  const r = Float64Array.from(side, (b, k) => b - product[k]!);
  const z = new Float64Array(size);
  precondition(r, z);
  const p = z.slice();
  let rz = dot(r, z);
  const length = Math.sqrt(dot(side, side)) || 1;
  let remainder = Math.sqrt(dot(r, r)) / length;
  for (let step = 1; step <= steps; step++) {
    if (remainder <= tolerance) return { solution: x, steps: step - 1, remainder };
    matrix.multiply(values, p, product);
    const along = rz / dot(p, product);
    for (let k = 0; k < size; k++) {
      x[k]! += along * p[k]!;
      r[k]! -= along * product[k]!;
    }
    precondition(r, z);
    const next = dot(r, z);
    const turn = next / rz;
    rz = next;
    for (let k = 0; k < size; k++) p[k] = z[k]! + turn * p[k]!;
    remainder = Math.sqrt(dot(r, r)) / length;
    if (!onStep(step, remainder)) break;
  }
  throw new MeritError(
    'MERIT_NOT_CONVERGED',
    `The solutions did not settle: ${remainder.toExponential(1)} of the way is left.`,
    { remainder },
  );
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}

/** Solves small blocks on the diagonal: all slots of a level, and the fixed equations of each trait. */
function preconditioner(equations: Equations, values: Float64Array) {
  const { size, matrix, unitOf, design } = equations;
  const block = new Int32Array(size);
  const fixed = design.equations.length;
  const traits = equations.model.traits.length;
  for (let k = 0; k < fixed; k++) block[k] = design.equations[k]!.trait;
  for (let k = fixed; k < size; k++) block[k] = traits + unitOf[k]! - fixed;
  const members: number[][] = [];
  const place = new Int32Array(size);
  for (let k = 0; k < size; k++) {
    const list = (members[block[k]!] ??= []);
    place[k] = list.length;
    list.push(k);
  }
  const squares = members.map((list) => new Float64Array(list.length ** 2));
  for (let j = 0; j < size; j++) {
    for (let k = matrix.start[j]!; k < matrix.start[j + 1]!; k++) {
      const i = matrix.row[k]!;
      if (block[i] !== block[j]) continue;
      const square = squares[block[j]!]!;
      const wide = members[block[j]!]!.length;
      square[place[i]! * wide + place[j]!] = values[k]!;
      square[place[j]! * wide + place[i]!] = values[k]!;
    }
  }
  const factors = squares.map((square, b) => factorOf(square, members[b]!.length));
  const part = new Float64Array(
    Math.max(1, ...members.slice(0, traits).map((list) => list?.length ?? 0), 8),
  );
  return (r: Float64Array, z: Float64Array): void => {
    members.forEach((list, b) => {
      for (let k = 0; k < list.length; k++) part[k] = r[list[k]!]!;
      solveFactored(factors[b]!, list.length, part);
      for (let k = 0; k < list.length; k++) z[list[k]!] = part[k]!;
    });
  };
}

function factorOf(square: Square, size: number): Square {
  const factor = choleskyOf(square, size);
  if (factor !== null) return factor;
  const diagonal = new Float64Array(size * size);
  for (let k = 0; k < size; k++) diagonal[k * size + k] = Math.sqrt(square[k * size + k]!);
  return diagonal;
}
