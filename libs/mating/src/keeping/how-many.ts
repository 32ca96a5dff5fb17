import { MatingError } from '../mating-error.js';

/** What is known when it is asked how many of a brood to keep. */
export interface BroodToKeep {
  /** Young kept of all broods of the round together. */
  readonly keep: number;
  /** Broods of the round that still count: made or to come, none that failed. */
  readonly broods: number;
  /** Kept already of the round's other broods, by sex. */
  readonly keptElsewhere: { readonly males: number; readonly females: number };
}

/** How many of each sex to keep, this brood's share of all. */
export interface ToKeep {
  readonly males: number;
  readonly females: number;
}

/**
 * How many males and females of a brood to keep: an equal share of what the round keeps, one more rather than one less, half of each sex.
 * Equal shares of all broods, and as many males as females, lose the least diversity for the number kept (equal family sizes double the
 * effective size: Falconer & Mackay 1996, chapter 4, from memory). Of an odd share the last one goes to the sex of which fewer were kept
 * of the other broods; where that tells nothing, to the females: a male serves several.
 *
 * @throws MatingError MATING_BAD_VALUE for a number that is not whole or too small.
 * @example howManyToKeep({ keep: 8, broods: 3, keptElsewhere: { males: 0, females: 0 } }) // 1 male, 2 females
 */
export function howManyToKeep({ keep, broods, keptElsewhere }: BroodToKeep): ToKeep {
  expectWhole('keep', keep, 1);
  expectWhole('broods', broods, 1);
  expectWhole('males kept', keptElsewhere.males, 0);
  expectWhole('females kept', keptElsewhere.females, 0);
  const share = Math.max(1, Math.ceil(keep / broods));
  const half = Math.floor(share / 2);
  if (share % 2 === 0) return { males: half, females: half };
  return keptElsewhere.males < keptElsewhere.females
    ? { males: half + 1, females: half }
    : { males: half, females: half + 1 };
}

function expectWhole(name: string, value: number, least: number): void {
  if (Number.isInteger(value) && value >= least) return;
  throw new MatingError(
    'MATING_BAD_VALUE',
    name,
    `${name} is ${String(value)}; it must be a whole number of ${String(least)} or more.`,
  );
}
