/** What can be wrong with what was asked of this library. */
export type MeritErrorCode =
  | 'MERIT_NOT_A_NUMBER'
  | 'MERIT_OUT_OF_RANGE'
  | 'MERIT_TOO_FEW'
  | 'MERIT_BAD_SHEET'
  | 'MERIT_LENGTH_MISMATCH'
  | 'MERIT_NO_VARIATION'
  | 'MERIT_NOT_SEPARABLE'
  | 'MERIT_NOT_DEFINITE'
  | 'MERIT_TOO_LARGE'
  | 'MERIT_NOT_CONVERGED';

/** The one error of this library: a code for programs, a message for people, and the values at fault. */
export class MeritError extends Error {
  override readonly name = 'MeritError';

  constructor(
    readonly code: MeritErrorCode,
    message: string,
    readonly data: Readonly<Record<string, unknown>> = {},
  ) {
    super(message);
  }
}
