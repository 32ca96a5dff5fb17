import type { Fault } from '@linewright/repair';

/** Problems that one answer carries; `problemCount` tells them all. */
export const PROBLEMS_SHOWN = 2_000;

export type ImportProblemCode =
  | 'IMPORT_EMPTY'
  | 'IMPORT_TOO_LARGE'
  | 'IMPORT_TAG_LONG'
  | 'IMPORT_UNREADABLE'
  | 'IMPORT_ROW_LENGTH'
  | 'IMPORT_NO_TAG_COLUMN'
  | 'IMPORT_COLUMN_MISSING'
  | 'IMPORT_COLUMN_TWICE'
  | 'IMPORT_TAG_MISSING'
  | 'IMPORT_DUPLICATE_TAG'
  | 'IMPORT_TAG_TAKEN'
  | 'IMPORT_UNKNOWN_PARENT'
  | 'IMPORT_PARENT_WITHDRAWN'
  | 'IMPORT_OWN_ANCESTOR'
  | 'IMPORT_SAME_PARENTS'
  | 'IMPORT_MALE_AS_DAM'
  | 'IMPORT_FEMALE_AS_SIRE'
  | 'IMPORT_BOTH_ROLES'
  | 'IMPORT_PARENT_YOUNGER'
  | 'IMPORT_DATE_ORDER'
  | 'IMPORT_BAD_DATE'
  | 'IMPORT_BAD_SEX'
  | 'IMPORT_BAD_LINE'
  | 'IMPORT_BAD_NUMBER'
  | 'IMPORT_BAD_YES_NO'
  | 'IMPORT_BAD_DISPOSITION'
  | 'IMPORT_UNKNOWN_KEEPER'
  | 'IMPORT_TEXT_LONG'
  | 'IMPORT_SPAWN_PARENTS'
  | 'IMPORT_BROKEN_LETTERS'
  | 'IMPORT_OUT_OF_RANGE';

/** One reason why a file cannot be taken in, with the line it stands on, what to do, and what was most likely meant. */
export interface ImportProblem extends Fault {
  readonly code: ImportProblemCode;
}

export type ImportNoteCode =
  | 'IMPORT_SUMMARY_ROW'
  | 'IMPORT_SPELLING'
  | 'IMPORT_ONLY_TAG'
  | 'IMPORT_NEAR_LINE'
  | 'IMPORT_VESSEL_SHARED';

/** Something that is read otherwise than it stands in the file, or looks doubtful; told before anything is saved, and no hindrance. */
export interface ImportNote extends Fault {
  readonly code: ImportNoteCode;
}
