/** Sex as recorded. `unknown` covers unsexed and uncertain fish: it is a value, never a guess. */
export type Sex = 'male' | 'female' | 'unknown';

/** One individual and what is known of its parents, in any order. */
export interface ParentageRecord {
  readonly id: string;
  /** Id of the sire; `null` or absent when unknown. */
  readonly sire?: string | null;
  /** Id of the dam; `null` or absent when unknown. */
  readonly dam?: string | null;
  readonly sex?: Sex;
  /** ISO date (`2026-03-14`), used only to check that parents are older than their young. */
  readonly bornOn?: string | null;
  /** Line number in the file the record came from, carried into error messages. */
  readonly row?: number;
}

/** Stands in `sire` and `dam` where the parent is unknown. */
export const NO_PARENT = -1;

/**
 * A compact, immutable pedigree of `size` individuals.
 *
 * Indices run from 0 to `size - 1` and are topological: a parent's index is always lower than its young's.
 * `sire[i]` and `dam[i]` hold indices or {@link NO_PARENT}.
 */
export interface Pedigree {
  readonly size: number;
  /** Index to id. */
  readonly ids: readonly string[];
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  /**
   * 1 where the individual is no recorded one but stands for a parent that nobody knows and that several young share; absent
   * where there is none. It makes sibs of its young and counts as unknown wherever it is asked how much is known.
   */
  readonly hidden?: Uint8Array;
  /** Id to index; throws `PedigreeError` with code `PEDIGREE_UNKNOWN_ID` for an id that is not in the pedigree. */
  indexOf(id: string): number;
  has(id: string): boolean;
}

/** Whether a parent is on record: neither unknown nor a hidden one. */
export function isRecorded(pedigree: Pedigree, parent: number): boolean {
  return parent >= 0 && pedigree.hidden?.[parent] !== 1;
}
