export type PicturesErrorCode =
  | 'MARKING_TOO_FEW_POINTS'
  | 'MARKING_NOT_A_NUMBER'
  | 'MARKING_OUTSIDE'
  | 'MARKING_TOO_CLOSE'
  | 'MARKING_NO_SCALE';

/** What is wrong with a marking of a picture, and what to do about it. */
export class PicturesError extends Error {
  constructor(
    readonly code: PicturesErrorCode,
    message: string,
  ) {
    super(message);
    this.name = 'PicturesError';
  }
}
