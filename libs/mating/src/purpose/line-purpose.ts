import type { Locus } from '@linewright/heredity';
import { isCalendarDate } from '@linewright/pedigree';
import { checkWishes, type ClassWish } from '../class-wishes.js';
import { MatingError } from '../mating-error.js';
import { completeSettings, DEFAULT_SETTINGS, type PairingSettings } from '../settings.js';

/**
 * What a person wants of one trait. Worth is in points, a person's own unit, the same for all traits and looks of a line: only
 * ratios of worth mean anything.
 */
export interface TraitAim {
  readonly traitId: string;
  /** Which way is better; `within`: the range `low` to `high` is wanted, and less or more of it is worth less. */
  readonly better: 'higher' | 'lower' | 'within';
  /** Lowest value that passes the keeper's standard, in the trait's unit; `null`: none. */
  readonly low: number | null;
  /** Highest value that passes, in the trait's unit; `null`: none. */
  readonly high: number | null;
  /** Points for one unit of the trait on the better side; with `within`, points lost for one unit outside of the range. 0 or more. */
  readonly worth: number;
}

/** A look that is wanted on a young, or not. */
export interface LookAim {
  /** The look, all of its phenotypes on one fish. */
  readonly look: ClassWish;
  readonly wanted: boolean;
  /** Points that one young gains by showing it (wanted), or loses (not wanted). 0 or more. */
  readonly worth: number;
  /** Whether a young has to show it (wanted), or must not (not wanted), to pass the standard. */
  readonly required: boolean;
}

/** Ages, rests and limits that pairs of a line are judged by. */
export type PairingRules = Pick<
  PairingSettings,
  'ages' | 'rest' | 'bodyLengthRatio' | 'knownAncestryFrom'
>;

/** What a line is for, and what this round may take. */
export interface LinePurpose {
  readonly traits: readonly TraitAim[];
  readonly looks: readonly LookAim[];
  /** Highest F of a brood, 0 to 1. */
  readonly ceiling: number;
  /**
   * By how much the mean coancestry of the line may rise in one generation, as a share of what is left to lose: 0.01 is an effective
   * size of 50. `null`: no limit.
   */
  readonly kinshipRise: number | null;
  /** Broods to make in this round. */
  readonly broods: number;
  /** Vessels for spawning and raising, one a brood; `null`: as many as broods. */
  readonly vessels: number | null;
  /** Broods that one fish may have in this round. */
  readonly broodsPerFish: number;
  /** Young that can be raised in all, to the age of sorting; `null`: no limit. */
  readonly fry: number | null;
  /** Young kept of all broods together for the next generation. */
  readonly keep: number;
  /** First and last day for pairs of this round, ISO dates; `null`: open. */
  readonly earliest: string | null;
  readonly latest: string | null;
  /** Points that a young loses for each 0.1 of its F, where the keeper states it; `null`: measured here if it could be, else the stated rate. */
  readonly inbreedingCost: number | null;
  readonly rules: PairingRules;
}

/** Any part of it: what is left out stays as in {@link STARTING_PURPOSE}. */
export type LinePurposeInput = Partial<LinePurpose>;

/**
 * What a line is for as long as nobody has said it: nothing in particular, a few pairs, no limit on kinship. Figures are guides of our own
 * without a source.
 */
export const STARTING_PURPOSE: LinePurpose = {
  traits: [],
  looks: [],
  ceiling: DEFAULT_SETTINGS.inbreedingCeiling,
  kinshipRise: null,
  broods: 3,
  vessels: null,
  broodsPerFish: 2,
  fry: null,
  keep: 8,
  earliest: null,
  latest: null,
  inbreedingCost: null,
  rules: {
    ages: DEFAULT_SETTINGS.ages,
    rest: DEFAULT_SETTINGS.rest,
    bodyLengthRatio: DEFAULT_SETTINGS.bodyLengthRatio,
    knownAncestryFrom: DEFAULT_SETTINGS.knownAncestryFrom,
  },
};

const MOST_AIMS = 50;
const MOST_BROODS = 200;
const MOST_YOUNG = 100_000;

/**
 * Fills what is left out and checks the rest.
 *
 * Throws `MatingError` with code `MATING_BAD_PURPOSE`, its subject naming the field, or `MATING_BAD_SETTING` for the rules and for looks
 * that no fish can have; `HeredityError` for a locus that does not exist. `loci` are a person's own.
 */
export function completePurpose(
  input: LinePurposeInput = {},
  loci: readonly Locus[] = [],
): LinePurpose {
  const purpose: LinePurpose = { ...STARTING_PURPOSE, ...input };
  atMost('traits', purpose.traits.length, MOST_AIMS);
  atMost('looks', purpose.looks.length, MOST_AIMS);
  eachOnce(purpose.traits);
  purpose.traits.forEach(checkTrait);
  checkWishes(
    purpose.looks.map(({ look }) => look),
    loci,
  );
  purpose.looks.forEach(({ worth }, k) => notNegative(`looks.${String(k)}.worth`, worth));
  share('ceiling', purpose.ceiling);
  if (purpose.kinshipRise !== null) share('kinshipRise', purpose.kinshipRise);
  whole('broods', purpose.broods, 1, MOST_BROODS);
  whole('broodsPerFish', purpose.broodsPerFish, 1, MOST_BROODS);
  if (purpose.vessels !== null) whole('vessels', purpose.vessels, 1, MOST_BROODS);
  if (purpose.fry !== null) whole('fry', purpose.fry, 1, MOST_YOUNG);
  whole('keep', purpose.keep, 2, MOST_YOUNG);
  checkDays(purpose);
  if (purpose.inbreedingCost !== null) notNegative('inbreedingCost', purpose.inbreedingCost);
  completeSettings(purpose.rules);
  return purpose;
}

function checkTrait({ traitId, better, low, high, worth }: TraitAim): void {
  const at = `traits.${traitId}`;
  notNegative(`${at}.worth`, worth);
  for (const bound of [low, high])
    if (bound !== null && !Number.isFinite(bound)) refuse(at, bound, 'a number, or none');
  if (low !== null && high !== null && low > high)
    refuse(at, `${String(low)} to ${String(high)}`, 'a range whose first figure is the lower one');
  if (better === 'within' && low === null && high === null)
    refuse(at, 'a range without ends', 'a range with at least one end');
}

function eachOnce(traits: readonly TraitAim[]): void {
  const seen = new Set<string>();
  for (const { traitId } of traits) {
    if (seen.has(traitId)) refuse(`traits.${traitId}`, 'named twice', 'named once');
    seen.add(traitId);
  }
}

function checkDays({ earliest, latest }: LinePurpose): void {
  for (const [name, day] of [['earliest', earliest] as const, ['latest', latest] as const])
    if (day !== null && !isCalendarDate(day)) refuse(name, day, 'a day such as 2026-03-01');
  if (earliest !== null && latest !== null && earliest > latest)
    refuse('latest', latest, `no earlier than the first day, ${earliest}`);
}

const share = (name: string, value: number): void => {
  if (!(value >= 0 && value <= 1)) refuse(name, value, 'from 0 to 1');
};

const notNegative = (name: string, value: number): void => {
  if (!(Number.isFinite(value) && value >= 0)) refuse(name, value, '0 or more');
};

const whole = (name: string, value: number, least: number, most: number): void => {
  if (!Number.isInteger(value) || value < least || value > most)
    refuse(name, value, `a whole number from ${String(least)} to ${String(most)}`);
};

const atMost = (name: string, count: number, most: number): void => {
  if (count > most) refuse(name, count, `at most ${String(most)}`);
};

function refuse(name: string, value: number | string, wanted: string): never {
  throw new MatingError(
    'MATING_BAD_PURPOSE',
    name,
    `What the line is for: ${name} is ${String(value)}; it must be ${wanted}.`,
  );
}

/** Whether anything is worth something: else pairs and young are all worth the same. */
export const hasAims = ({ traits, looks }: Pick<LinePurpose, 'traits' | 'looks'>): boolean =>
  [...traits, ...looks].some(({ worth }) => worth > 0);
