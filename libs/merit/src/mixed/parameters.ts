import type { Equations } from './equations.js';
import type { Variances } from './mixed-model.js';

/** One variance or covariance that is estimated: element (i, j) of G of a term, or of R. */
export interface VarianceParameter {
  /** Position of the random term; -1 for the residual. */
  readonly term: number;
  readonly i: number;
  readonly j: number;
}

/** All elements of the lower halves of all G, then of R. */
export function parametersOf({ model }: Equations): VarianceParameter[] {
  const halves = (term: number, size: number): VarianceParameter[] =>
    Array.from({ length: size }, (_, i) =>
      Array.from({ length: i + 1 }, (__, j) => ({ term, i, j })),
    ).flat();
  return [
    ...model.random.flatMap(({ slots }, term) => halves(term, slots.length)),
    ...halves(-1, model.traits.length),
  ];
}

export function valuesOf(
  parameters: readonly VarianceParameter[],
  variances: Variances,
): Float64Array {
  return Float64Array.from(parameters, ({ term, i, j }) => {
    const matrix = term < 0 ? variances.residual : variances.random[term]!;
    return matrix[i]![j]!;
  });
}

export function variancesFrom(
  { model }: Equations,
  parameters: readonly VarianceParameter[],
  values: ArrayLike<number>,
): Variances {
  const empty = (size: number): number[][] =>
    Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const random = model.random.map(({ slots }) => empty(slots.length));
  const residual = empty(model.traits.length);
  parameters.forEach(({ term, i, j }, k) => {
    const matrix = term < 0 ? residual : random[term]!;
    matrix[i]![j] = matrix[j]![i] = values[k]!;
  });
  return { random, residual };
}
