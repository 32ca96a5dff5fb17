/** What follows the cross: its young back to one fish of the line again and again, or brother to sister. */
export type AfterOutcross = 'back' | 'within';

/** The fish of an outcross, by their places in what is believed. */
export interface OutcrossFish {
  /** The fish from outside the line. */
  readonly partner: number;
  /** Its mate of the line. */
  readonly mate: number;
  /** The fish of the line that the young are put back to; it may be the mate. */
  readonly back: number;
}
