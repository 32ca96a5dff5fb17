export type KinshipErrorCode =
  | 'KINSHIP_BAD_INDEX'
  | 'KINSHIP_BAD_ARGUMENT'
  | 'KINSHIP_LENGTH_MISMATCH'
  | 'KINSHIP_NOT_A_FOUNDER'
  | 'KINSHIP_IMPOSSIBLE_FOUNDERS'
  | 'KINSHIP_SINGULAR'
  | 'KINSHIP_RELATED_FOUNDERS';

/**
 * The one error of this library.
 *
 * `KINSHIP_BAD_INDEX`: no such individual. `KINSHIP_BAD_ARGUMENT`: a value out of its range. `KINSHIP_LENGTH_MISMATCH`: arrays
 * whose lengths do not fit together. `KINSHIP_NOT_A_FOUNDER`: a relationship was given for an individual with a known parent.
 * `KINSHIP_IMPOSSIBLE_FOUNDERS`: coancestries of founders that no fish can have (not positive semi-definite, or an F below 0).
 * `KINSHIP_SINGULAR`: the relationship matrix has no inverse (identical individuals). `KINSHIP_RELATED_FOUNDERS`: the figure asked
 * for has no meaning when founders are given as related or inbred.
 */
export class KinshipError extends Error {
  override readonly name = 'KinshipError';

  constructor(
    readonly code: KinshipErrorCode,
    message: string,
  ) {
    super(message);
  }
}
