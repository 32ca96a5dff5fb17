import type { Pedigree } from '@linewright/pedigree';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { LineRow } from '../stock/rows/line.entity.js';
import type { LineFiguresModel } from './line-health.model.js';
import type { LineTask } from './line-task.js';

/** The fish of a line and all their ancestors, as the records have them now. */
export interface LineStock {
  readonly pedigree: Pedigree;
  /** By id. */
  readonly fish: ReadonlyMap<string, NamedFishModel>;
  readonly task: LineTask;
}

export interface LineStanding {
  readonly line: LineRow;
  readonly fishCount: number;
  readonly inUseCount: number;
  /** `null` when no fish of the line is in use, and while they are `waiting`. */
  readonly figures: LineFiguresModel | null;
  readonly waiting: ComputationRow | null;
}
