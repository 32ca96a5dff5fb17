/** What went wrong with a request to this library. */
export type MatingErrorCode =
  | 'MATING_BAD_BELIEF'
  | 'MATING_BAD_ANSWERS'
  | 'MATING_BAD_CONTRIBUTION'
  | 'MATING_BAD_DATE'
  | 'MATING_BAD_PURPOSE'
  | 'MATING_BAD_SETTING'
  | 'MATING_BAD_VALUE'
  | 'MATING_COANCESTRY_UNREACHABLE'
  | 'MATING_DUPLICATE_FISH'
  | 'MATING_PAIRS_UNREACHABLE'
  | 'MATING_PAIR_NOT_ALLOWED'
  | 'MATING_UNKNOWN_FISH'
  | 'MATING_WRONG_SEX'
  | 'MATING_TOO_FEW_FISH';

/**
 * A request that cannot be answered as it stands. A discouraged pairing is not an error: it stays in the list with its
 * reasons.
 */
export class MatingError extends Error {
  readonly code: MatingErrorCode;
  /** The fish, setting or value the message is about. */
  readonly subject: string;

  constructor(code: MatingErrorCode, subject: string, message: string) {
    super(message);
    this.name = 'MatingError';
    this.code = code;
    this.subject = subject;
  }
}
