import type { ClubRequest, PooledStage } from '../api/club.js';
import { plural } from './figures.js';

export const WHAT_ASKED: Readonly<Record<ClubRequest['what'], string>> = {
  FISH: 'A fish, to keep',
  LOAN: 'A loan: a fish, to give back',
  STUD: 'A stud: a mating, one of the two fish is lent for it',
};

/** The same within a sentence. */
export const ASKS_FOR: Readonly<Record<ClubRequest['what'], string>> = {
  FISH: 'a fish to keep',
  LOAN: 'a fish on loan',
  STUD: 'a stud',
};

export const REQUEST_STATES: Readonly<Record<ClubRequest['state'], string>> = {
  OPEN: 'waits for an answer',
  YES: 'yes',
  NO: 'no',
  WITHDRAWN: 'withdrawn',
};

export const STAGES: Readonly<Record<PooledStage['stage'], string>> = {
  HATCH: 'Eggs that hatch',
  FREE_SWIMMING: 'Hatched fry that swim free',
  SORTING: 'Fry that live to be sorted',
  SOUND: 'Fry without an inherited fault',
};

/** "3 keepers, 5 lines, 48 broods"; nothing where that is not told. */
export const pooledFrom = (
  { keepers, lines }: { readonly keepers: number | null; readonly lines: number | null },
  count: number | null,
  what: string,
): string =>
  keepers === null || lines === null || count === null
    ? ''
    : `${plural(keepers, 'keeper')}, ${plural(lines, 'line')}, ${count.toLocaleString('en')} ${what}`;

/** "0.42 (0.2 to 0.66)"; an end without a bound is left open. */
export const withInterval = (value: number, low: number | null, high: number | null): string =>
  `${value} (${low === null ? 'no lower end' : low} to ${high === null ? 'no upper end' : high})`;
