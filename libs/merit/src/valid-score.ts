/** What a value of a trait may be: measured in a unit, a step of a scale, yes (1) or no (0), or a number of things. */
export interface ScoreScale {
  readonly kind: 'measured' | 'ordinal' | 'yes_no' | 'count';
  /** `null`: no least value. */
  readonly minimum: number | null;
  /** `null`: no greatest value. */
  readonly maximum: number | null;
}

/** Why a value is none of a trait. */
export type ScoreSlip = 'not-a-number' | 'below' | 'above' | 'not-yes-or-no' | 'not-whole';

/** Whether values between two whole numbers mean nothing on this scale. */
export const isWholeScale = ({ kind }: Pick<ScoreScale, 'kind'>): boolean => kind !== 'measured';

/**
 * What is wrong with a value of a trait; `null` when it may be recorded.
 *
 * @param ranged false for a value of an older version of the trait, whose range is not known any more
 * @example scoreSlip({ kind: 'ordinal', minimum: 1, maximum: 10 }, 7.5) // 'not-whole'
 */
export const scoreSlip = (scale: ScoreScale, value: number, ranged = true): ScoreSlip | null => {
  if (!Number.isFinite(value)) return 'not-a-number';
  if (scale.kind === 'yes_no') return value === 0 || value === 1 ? null : 'not-yes-or-no';
  if (ranged && scale.minimum !== null && value < scale.minimum) return 'below';
  if (ranged && scale.maximum !== null && value > scale.maximum) return 'above';
  return isWholeScale(scale) && !Number.isInteger(value) ? 'not-whole' : null;
};
