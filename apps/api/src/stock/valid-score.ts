import { type ScoreScale, type ScoreSlip, scoreSlip } from '@linewright/merit';

/** What holds for a score, typed here or received in a file. */

const remedies: Readonly<Record<ScoreSlip, (trait: ScoreScale) => string>> = {
  'not-a-number': () => 'is not a number.',
  below: ({ minimum }) => `is below ${minimum}: give ${minimum} or more.`,
  above: ({ maximum }) => `is above ${maximum}: give ${maximum} or less.`,
  'not-yes-or-no': () => 'is neither yes (1) nor no (0).',
  'not-whole': () => 'is not a whole number.',
};

/**
 * What is wrong with a value of a trait, after the value; `null` when it may be recorded.
 *
 * @param present false for a value of an older version of the trait, whose range is not known any more
 */
export const scoreProblem = (trait: ScoreScale, value: number, present: boolean): string | null => {
  const slip = scoreSlip(trait, value, present);
  return slip === null ? null : remedies[slip](trait);
};
