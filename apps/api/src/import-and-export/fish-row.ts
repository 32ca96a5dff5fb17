import type { FishSex } from '../stock/rows/fish.entity.js';
import type { MatchedColumn } from './import-columns.js';

/** One row of the file, read. */
export interface ReadFish {
  readonly line: number;
  readonly tag: string;
  /** The tag as the row has it. */
  readonly written: string;
  readonly sire: string | null;
  readonly dam: string | null;
  /** `null`: the file does not say. */
  readonly sex: FishSex | null;
  readonly hatchDate: string | null;
  readonly lineCode: string | null;
  /** Its spawn: rows with the same one are full sibs. */
  readonly spawn: string | null;
  /** `null`: the file does not say. */
  readonly unrelated: boolean | null;
  readonly scores: readonly { readonly column: MatchedColumn; readonly value: number }[];
}
