/** What can be wrong with what was asked of this library. */
export type CareErrorCode =
  | 'CARE_NOT_A_NUMBER'
  | 'CARE_OUT_OF_RANGE'
  | 'CARE_UNKNOWN_STEP'
  | 'CARE_TEMPLATE_CYCLE'
  | 'CARE_BAD_TEMPLATE'
  | 'CARE_BAD_EVENT'
  | 'CARE_BAD_COUNT';

/** The one error of this library: a code for programs, a message for people, and the values at fault. */
export class CareError extends Error {
  override readonly name = 'CareError';

  constructor(
    readonly code: CareErrorCode,
    message: string,
    readonly data: Readonly<Record<string, unknown>> = {},
  ) {
    super(message);
  }
}
