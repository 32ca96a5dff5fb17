import type { Equations } from './equations.js';
import { variancesFrom, type VarianceParameter } from './parameters.js';
import { choleskyOf } from './small-matrix.js';

/**
 * The quantities that are moved to find variances: Cholesky factors of each matrix, so that no step leads out of the range of
 * matrices of several traits, or variances themselves where they are single.
 */
export interface FreeQuantities {
  readonly count: number;
  /** Least value of each: a variance, or a pivot, that stands for 0. */
  readonly least: Float64Array;
  toParameters(phi: Float64Array): Float64Array;
  /** d parameter / d quantity, a parameter a row. */
  slope(phi: Float64Array): Float64Array[];
  /** Null where the parameters are out of range. */
  fromParameters(values: Float64Array): Float64Array | null;
}

/** Parameters as given weighted sums of single variances. */
export function mappedQuantities(
  map: readonly (readonly number[])[],
  edge: number,
): FreeQuantities {
  const count = map[0]!.length;
  const rows = map.map((row) => Float64Array.from(row));
  return {
    count,
    least: new Float64Array(count).fill(edge),
    toParameters: (phi) =>
      Float64Array.from(rows, (row) => row.reduce((sum, b, k) => sum + b * phi[k]!, 0)),
    slope: () => rows,
    fromParameters: (values) => {
      const phi = new Float64Array(count);
      map.forEach((row, i) => {
        const at = row.findIndex((b) => b !== 0);
        if (row[at] === 1 && row.every((b, k) => k === at || b === 0)) phi[at] = values[i]!;
      });
      return phi;
    },
  };
}

/** Single variances as they are, matrices by their Cholesky factors. `edges`: what stands for 0 in each trait. */
export function factorQuantities(
  equations: Equations,
  parameters: readonly VarianceParameter[],
  edges: readonly number[],
): FreeQuantities {
  const { model } = equations;
  const sizeOf = (term: number): number =>
    term < 0 ? model.traits.length : model.random[term]!.slots.length;
  const edgeOf = ({ term, i }: VarianceParameter): number =>
    edges[term < 0 ? i : model.random[term]!.slots[i]!.trait]!;
  const position = new Map(parameters.map(({ term, i, j }, k) => [`${term} ${i} ${j}`, k]));
  const at = (term: number, i: number, j: number): number =>
    position.get(`${term} ${Math.max(i, j)} ${Math.min(i, j)}`)!;
  return {
    count: parameters.length,
    least: Float64Array.from(parameters, (parameter) => {
      if (parameter.i !== parameter.j) return -Infinity;
      const edge = edgeOf(parameter);
      return sizeOf(parameter.term) === 1 ? edge : Math.sqrt(edge);
    }),
    toParameters: (phi) =>
      Float64Array.from(parameters, ({ term, i, j }, k) => {
        if (sizeOf(term) === 1) return phi[k]!;
        let sum = 0;
        for (let m = 0; m <= j; m++) sum += phi[at(term, i, m)]! * phi[at(term, j, m)]!;
        return sum;
      }),
    slope: (phi) =>
      parameters.map(({ term, i, j }, k) => {
        const row = new Float64Array(parameters.length);
        if (sizeOf(term) === 1) row[k] = 1;
        else
          for (let m = 0; m <= j; m++) {
            row[at(term, i, m)]! += phi[at(term, j, m)]!;
            row[at(term, j, m)]! += phi[at(term, i, m)]!;
          }
        return row;
      }),
    fromParameters: (values) => {
      const { random, residual } = variancesFrom(equations, parameters, values);
      const factors = [...random, residual].map((matrix) => {
        if (matrix.length === 1) return Float64Array.of(matrix[0]![0]!);
        return choleskyOf(Float64Array.from(matrix.flat()), matrix.length);
      });
      if (factors.some((factor) => factor === null)) return null;
      return Float64Array.from(parameters, ({ term, i, j }) => {
        const factor = factors[term < 0 ? factors.length - 1 : term]!;
        return factor[i * sizeOf(term) + j]!;
      });
    },
  };
}
