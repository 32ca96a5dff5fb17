import { type LinearMatrix, LinearMatrixBuilder } from '../sparse/linear-matrix.js';
import { orderByUnits } from '../sparse/ordering.js';
import { SparseCholesky } from '../sparse/sparse-cholesky.js';
import { symbolicFactor, type SymbolicFactor } from '../sparse/symbolic-factor.js';
import type { ThresholdEquations } from './threshold-equations.js';

/** How a row's density bends by the ends of its class less its liability, as precisions; an open end has none. */
export interface RowBend {
  readonly highHigh: number;
  readonly lowLow: number;
  readonly lowHigh: number;
  /** Thresholds at the ends of the class, -1 where it is open. */
  readonly lower: number;
  readonly upper: number;
}

/** Visits each scored row with its bend, in the same order each time. */
export type EachBend = (visit: (row: number, bend: RowBend) => void) => void;

export interface Factored {
  readonly matrix: LinearMatrix;
  readonly factor: SparseCholesky;
}

/** The precision of thresholds and effects: what rows say and the density of the random effects. Its pattern is worked out once. */
export class ThresholdMatrix {
  readonly #builder: LinearMatrixBuilder;
  #pattern: { readonly matrix: LinearMatrix; readonly symbolic: SymbolicFactor } | null = null;

  constructor(readonly equations: ThresholdEquations) {
    this.#builder = new LinearMatrixBuilder(equations.size);
  }

  /** @throws NotPositiveDefinite. Cost: a sparse factorisation. */
  factored(eachBend: EachBend, variances: readonly number[]): Factored {
    const builder = this.#builder;
    const { size, rows, eachPrior, unitOf, units } = this.equations;
    builder.again();
    for (let i = 0; i < size; i++) builder.add(0, i, i, 0);
    eachBend((row, { lowLow, highHigh, lowHigh, lower, upper }) => {
      if (upper >= 0) builder.add(0, upper, upper, highHigh);
      if (lower >= 0) builder.add(0, lower, lower, lowLow);
      if (upper >= 0 && lower >= 0) builder.add(0, upper, lower, lowHigh);
      rows.addProducts(builder, 0, row, highHigh + lowLow + 2 * lowHigh);
      if (upper >= 0) rows.addColumn(builder, 0, row, upper, -(highHigh + lowHigh));
      if (lower >= 0) rows.addColumn(builder, 0, row, lower, -(lowLow + lowHigh));
    });
    eachPrior(variances, (i, j, value) => builder.add(0, i, j, value));
    if (this.#pattern === null) {
      const matrix = builder.build(1);
      this.#pattern = {
        matrix,
        symbolic: symbolicFactor(matrix, orderByUnits(matrix, unitOf, units)!),
      };
    }
    const { matrix, symbolic } = this.#pattern;
    return { matrix, factor: new SparseCholesky(symbolic, builder.refilled(matrix)) };
  }
}
