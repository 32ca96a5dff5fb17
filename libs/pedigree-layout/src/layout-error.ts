/** What can be wrong with a slice handed to the layout. */
export type LayoutErrorCode =
  | 'LAYOUT_CYCLE'
  | 'LAYOUT_DUPLICATE_ID'
  | 'LAYOUT_UNKNOWN_FOCUS'
  | 'LAYOUT_SAME_PARENTS'
  | 'LAYOUT_UNKNOWN_PARENT';

/** The one error of this lib. `ids` names the fish concerned, in the order in which the message names them. */
export class LayoutError extends Error {
  override readonly name = 'LayoutError';

  constructor(
    readonly code: LayoutErrorCode,
    message: string,
    readonly ids: readonly string[],
  ) {
    super(message);
  }
}
