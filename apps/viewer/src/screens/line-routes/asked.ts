/** What routes are searched for, and within what. */
export interface Asked {
  readonly share: number;
  readonly generations: number;
  readonly fryPerBrood: number;
  readonly withOutcross: boolean;
}
