import type { MixedModel, Variances } from '@linewright/merit';

/** A matrix as rows. */
type Matrix = number[][];

/** Solutions by the covariance matrix of the scores themselves: dense, slow and written apart from the equations. */
export interface DenseAnswer {
  readonly fixed: number[];
  /** By term: effect of level l in slot k at `l * slots + k`, and its error variance. */
  readonly effects: number[][];
  readonly errors: number[][];
  readonly logLikelihood: number;
}

/** One column of the fixed part: which score it belongs to is told by its trait. */
export interface DenseColumn {
  readonly trait: number;
  readonly value: (row: number) => number;
}

/**
 * Generalised least squares on V = Z G Z' + R with Gauss's elimination, best linear prediction, and the restricted likelihood.
 *
 * @param relationship K of each term, dense.
 */
export function solveDense(
  model: MixedModel,
  columns: readonly DenseColumn[],
  relationship: readonly Matrix[],
  { random, residual }: Variances,
): DenseAnswer {
  const scored = model.traits.flatMap(({ values }, trait) =>
    Array.from(values, (y, row) => ({ trait, row, y })).filter(({ y }) => !Number.isNaN(y)),
  );
  const x = scored.map(({ trait, row }) =>
    columns.map((column) => (column.trait === trait ? column.value(row) : 0)),
  );
  const z = model.random.map(({ levels, slots }) =>
    scored.map(({ trait, row }) => {
      const line = new Array<number>(levels * slots.length).fill(0);
      slots.forEach((slot, k) => {
        if (slot.trait === trait && slot.level[row]! >= 0)
          line[slot.level[row]! * slots.length + k]! += slot.coefficient?.[row] ?? 1;
      });
      return line;
    }),
  );
  const g = model.random.map(({ levels, slots }, term) =>
    square(levels * slots.length, (i, j) => {
      const count = slots.length;
      const k = relationship[term]![Math.floor(i / count)]![Math.floor(j / count)]!;
      return k * random[term]![i % count]![j % count]!;
    }),
  );
  const zg = z.map((matrix, term) => product(matrix, g[term]!));
  const v = square(scored.length, (i, j) => {
    const [a, b] = [scored[i]!, scored[j]!];
    const own = a.row === b.row ? residual[a.trait]![b.trait]! / (model.weights?.[a.row] ?? 1) : 0;
    return zg.reduce((sum, matrix, term) => sum + inner(matrix[i]!, z[term]![j]!), own);
  });
  const { inverse: vi, logDeterminant: logV } = invert(v);
  const y = scored.map((score) => [score.y]);
  const vix = product(vi, x);
  const { inverse: c, logDeterminant: logX } = invert(product(transposed(x), vix));
  const b = product(c, product(transposed(vix), y));
  const fit = product(x, b);
  const py = product(
    vi,
    y.map(([value], i) => [value! - fit[i]![0]!]),
  );
  const p = subtract(vi, product(vix, product(c, transposed(vix))));
  const effects = zg.map((matrix) => product(transposed(matrix), py).map(([value]) => value!));
  const errors = zg.map((matrix, term) => {
    const taken = product(transposed(matrix), product(p, matrix));
    return g[term]!.map((row, i) => row[i]! - taken[i]![i]!);
  });
  const quadratic = y.reduce((sum, [value], i) => sum + value! * py[i]![0]!, 0);
  const free = scored.length - columns.length;
  const logLikelihood = -0.5 * (logV + logX + quadratic + free * Math.log(2 * Math.PI));
  return { fixed: b.map(([value]) => value!), effects, errors, logLikelihood };
}

const square = (size: number, at: (i: number, j: number) => number): Matrix =>
  Array.from({ length: size }, (_, i) => Array.from({ length: size }, (__, j) => at(i, j)));

const inner = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, k) => sum + value * b[k]!, 0);

function transposed(matrix: Matrix): Matrix {
  return (matrix[0] ?? []).map((_, j) => matrix.map((row) => row[j]!));
}

function product(a: Matrix, b: Matrix): Matrix {
  const columns = transposed(b);
  return a.map((row) => columns.map((column) => inner(row, column)));
}

const subtract = (a: Matrix, b: Matrix): Matrix =>
  a.map((row, i) => row.map((value, j) => value - b[i]![j]!));

/** Gauss and Jordan with pivots from the whole column below. */
function invert(matrix: Matrix): { inverse: Matrix; logDeterminant: number } {
  const size = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  let logDeterminant = 0;
  for (let k = 0; k < size; k++) {
    let best = k;
    for (let i = k + 1; i < size; i++)
      if (Math.abs(work[i]![k]!) > Math.abs(work[best]![k]!)) best = i;
    [work[k], work[best]] = [work[best]!, work[k]!];
    const pivot = work[k]![k]!;
    logDeterminant += Math.log(Math.abs(pivot));
    for (let j = 0; j < 2 * size; j++) work[k]![j]! /= pivot;
    for (let i = 0; i < size; i++) {
      const factor = work[i]![k]!;
      if (i === k || factor === 0) continue;
      for (let j = 0; j < 2 * size; j++) work[i]![j]! -= factor * work[k]![j]!;
    }
  }
  return { inverse: work.map((row) => row.slice(size)), logDeterminant };
}
