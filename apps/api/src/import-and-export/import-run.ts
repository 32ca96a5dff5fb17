import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { ImportAnswer, ImportTask } from './import-task.js';

export type ImportPurpose = ImportTask['purpose'];

/** Where a file stands: what came out, or the long computation that is at it. */
export interface ImportRun {
  readonly id: string;
  readonly purpose: ImportPurpose;
  readonly fileName: string;
  readonly answer: ImportAnswer | null;
  readonly computation: ComputationRow | null;
}
