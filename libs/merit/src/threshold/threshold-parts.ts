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
  /** Each with one slot. */
  readonly random: readonly RandomTerm[];
  /** `probit` (the default): a normal liability; `logit`: a logistic one. */
  readonly link?: 'probit' | 'logit';
}
