/** What can be wrong with a pedigree as a set of records. */
export type PedigreeProblemCode =
  | 'PEDIGREE_EMPTY_ID'
  | 'PEDIGREE_DUPLICATE_ID'
  | 'PEDIGREE_UNKNOWN_PARENT'
  | 'PEDIGREE_CYCLE'
  | 'PEDIGREE_SAME_PARENTS'
  | 'PEDIGREE_SEX_CONFLICT'
  | 'PEDIGREE_BAD_DATE'
  | 'PEDIGREE_PARENT_YOUNGER';

/** One fault in a pedigree. The message names the value and says what to do about it. */
export interface PedigreeProblem {
  readonly code: PedigreeProblemCode;
  /** The individual whose record has to be looked at. */
  readonly id: string;
  /** Line number of that record, when the records carry one. */
  readonly row?: number;
  /** Other ids that take part: the parent, or every member of a cycle from young to old. */
  readonly others: readonly string[];
  readonly message: string;
}

export type PedigreeErrorCode =
  | 'PEDIGREE_INVALID'
  | 'PEDIGREE_UNKNOWN_ID'
  | 'PEDIGREE_BAD_INDEX'
  | 'PEDIGREE_NOT_TOPOLOGICAL'
  | 'PEDIGREE_LENGTH_MISMATCH'
  | 'PEDIGREE_BAD_ARGUMENT';

/**
 * The one error of this library. `problems` is filled for `PEDIGREE_INVALID` and empty otherwise.
 *
 * @example
 * try { buildPedigree(records) } catch (error) {
 *   if (error instanceof PedigreeError) for (const problem of error.problems) console.error(problem.message);
 * }
 */
export class PedigreeError extends Error {
  override readonly name = 'PedigreeError';

  constructor(
    readonly code: PedigreeErrorCode,
    message: string,
    readonly problems: readonly PedigreeProblem[] = [],
  ) {
    super(message);
  }
}
