import type { ClubRequest, PooledStage } from '../api/club.js';
import { plural } from './figures.js';

export const WHAT_ASKED: Readonly<Record<ClubRequest['what'], string>> = {
  FISH: 'A fish, to keep',
  LOAN: 'A loan: a fish, to give back',
  STUD: 'A stud: a mating, the fish stays',
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

/** "3 keepers, 5 lines, 48 broods". */
export const pooledFrom = (
  { keepers, lines }: { readonly keepers: number; readonly lines: number },
  count: string,
): string => `${plural(keepers, 'keeper')}, ${plural(lines, 'line')}, ${count}`;

/** "0.42 (0.2 to 0.66)"; an end without a bound is left open. */
export const withInterval = (value: number, low: number | null, high: number | null): string =>
  `${value} (${low === null ? 'no lower end' : low} to ${high === null ? 'no upper end' : high})`;
