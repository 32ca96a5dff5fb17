import { MeritError } from '../merit-error.js';
import { shareGrid } from './integrate.js';
import type { Posterior } from './posterior.js';

/** Mean shares of the whole variance: of breeding values, of each further random term, of the residual; they add up to 1. */
export interface MeanShares {
  readonly heritability: number;
  readonly others: readonly number[];
  readonly residual: number;
}

/**
 * Where a grid of shares stands on the whole: for what needs one set of variances, such as reasons.
 *
 * @param others further random terms of the model. @param cellsOfOthers as the grid was asked for.
 * @throws MeritError MERIT_LENGTH_MISMATCH when the posterior was made on another grid.
 */
export function meanShares(
  { points, weights, cells }: Posterior,
  others: number,
  cellsOfOthers = 5,
): MeanShares {
  const grid = shareGrid(others, cells, cellsOfOthers);
  if (grid.length !== points.length)
    throw new MeritError(
      'MERIT_LENGTH_MISMATCH',
      `The grid has ${points.length} points, and ${others} further terms of ${cellsOfOthers} cells make ${grid.length}.`,
    );
  const mean = (of: (k: number) => number): number =>
    grid.reduce((sum, _, k) => sum + weights[k]! * of(k), 0);
  return {
    heritability: mean((k) => grid[k]!.heritability),
    others: Array.from({ length: others }, (_, term) => mean((k) => grid[k]!.others[term]!)),
    residual: mean((k) => grid[k]!.residual),
  };
}
