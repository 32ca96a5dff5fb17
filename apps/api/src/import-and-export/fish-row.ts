import type { FishDisposition, FishSex } from '../stock/rows/fish.entity.js';
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
  readonly name: string | null;
  readonly note: string | null;
  readonly origin: string | null;
  /** `null`: the file does not say what became of it, nor whether it is in use. */
  readonly disposition: FishDisposition | null;
  /** With whom it swims: a person on record, somebody unknown (`null`), or not said (`undefined`). */
  readonly swimsWithId: string | null | undefined;
  /** Code of the vessel it is in; `null`: the file does not say. */
  readonly vessel: string | null;
  readonly scores: readonly { readonly column: MatchedColumn; readonly value: number }[];
}
