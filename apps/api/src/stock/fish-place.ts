import type { FishDisposition } from './rows/fish.entity.js';

/** In whose tanks a fish is "here": those of the person whose install this is; of a keeper with lines of their own, the keeper's. */
const OWNER = `(SELECT door_here())`;

/** Nobody is asked where a fish goes that was passed on, or where one is that was never here. */
const away: readonly FishDisposition[] = ['placed', 'elsewhere'];

const isAway = (disposition: FishDisposition): boolean => away.includes(disposition);

/**
 * With whom a fish is taken to swim as long as nothing else is said: with the person whose record it is; of one that was passed
 * on or never here it is not known, which is `null`.
 */
export const usualPlace = (personId: string, disposition: FishDisposition): string | null =>
  isAway(disposition) ? null : personId;

/**
 * Where a fish swims once it is decided about. One passed on leaves for an unknown place unless it is said with whom it is; one
 * that is taken back swims here again.
 */
export const placeAfter = (
  decided: FishDisposition,
  before: { readonly disposition: FishDisposition; readonly swimsWithId: string | null },
  said: string | null | undefined,
  here: string,
): string | null => {
  if (said !== undefined) return said;
  if (decided === 'elsewhere') return null;
  if (decided === 'placed') return before.disposition === 'placed' ? before.swimsWithId : null;
  return isAway(before.disposition) ? (before.swimsWithId ?? here) : before.swimsWithId;
};

/** SQL: the fish is in use, wherever it swims. What that means, the view says. */
export const inUseSql = (fish: string): string =>
  `EXISTS (SELECT 1 FROM fish_in_use u WHERE u.id = ${fish}.id)`;

/** SQL: swims in this install's own tanks. Says nothing of whether it is alive. */
export const placeHereSql = (fish: string): string => `${fish}.swims_with_id = ${OWNER}`;

/** SQL: swims with a partner. */
export const placePartnerSql = (fish: string): string => `${fish}.swims_with_id <> ${OWNER}`;

/** SQL: alive in this install's own tanks, sorted or not; one passed on to this install's person too. */
export const aliveHereSql = (fish: string): string =>
  `(${fish}.disposition IN ('unsorted', 'keeper', 'hold', 'placed') AND ${placeHereSql(fish)})`;

/** The same rule as the view `fish_in_use`, for a row that is loaded: alive, and decided for, or passed on to someone on record. */
export const isInUse = (row: {
  readonly disposition: FishDisposition;
  readonly swimsWithId: string | null;
  readonly withdrawnAt: Date | null;
}): boolean =>
  row.withdrawnAt === null &&
  (row.disposition === 'keeper' ||
    row.disposition === 'hold' ||
    (row.disposition === 'placed' && row.swimsWithId !== null));
