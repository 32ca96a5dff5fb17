import type { FixedColumn, RandomTerm } from '../mixed/mixed-model.js';

/** Scores in ordered classes (yes and no are two), each row a look or a number of looks alike. */
export interface ThresholdParts {
  /** Class of each row, 0 to `classes - 1`; -1 where not scored. */
  readonly scores: Int32Array;
  readonly classes: number;
  /** How many looks each row stands for; 1 unless given. */
  readonly counts?: Float64Array;
  /** Columns of classes are differences from their first level; there is no mean, which the thresholds stand for. */
  readonly fixed: readonly FixedColumn[];
  /**
   * Standard deviation of fixed effects about 0 before any score, in standard deviations of the liability; of a column of numbers, what one standard
   * deviation of it does. Flat unless given: then a level whose fish all fall in a class at one end has no finite effect.
   */
  readonly fixedDeviation?: number;
  /** Each with one slot. */
  readonly random: readonly RandomTerm[];
  /** `probit` (the default): a normal liability; `logit`: a logistic one. */
  readonly link?: 'probit' | 'logit';
}
