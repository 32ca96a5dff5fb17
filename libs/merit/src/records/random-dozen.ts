import { MeritError } from '../merit-error.js';
import type { Chance } from '@linewright/pedigree';

/** How many of a brood are worth scoring before it is sorted. */
export const DOZEN = 12;

/**
 * Draws some of a brood, each with the same chance whatever it looks like; all of it, in random order, when there are no more. Score those before
 * anything is culled: what the person would have picked by eye says little of the brood.
 *
 * Source: the shuffle of Fisher & Yates (Knuth 1997, The Art of Computer Programming 2, algorithm 3.4.2 P), stopped early.
 * @param chance numbers from 0 up to but not 1.
 * @throws MeritError MERIT_OUT_OF_RANGE. Cost: linear.
 */
export function randomDozen<T>(brood: readonly T[], chance: Chance, count = DOZEN): T[] {
  if (!(Number.isInteger(count) && count >= 1))
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `${count} fish cannot be drawn: give a whole number of at least 1.`,
      { count },
    );
  const left = [...brood];
  const drawn = Math.min(count, left.length);
  for (let k = 0; k < drawn; k++) {
    const at = k + Math.floor(chance() * (left.length - k));
    [left[k], left[at]] = [left[at]!, left[k]!];
  }
  return left.slice(0, drawn);
}
