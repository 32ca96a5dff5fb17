import { MatingError } from './mating-error.js';

/** Ages in days that raise a warning. Default figures are breeders' practice without a published source. */
export interface AgeLimits {
  /** Below this a fish is too young: 12 weeks, when most are just capable of spawning. */
  readonly capableFrom: number;
  /** Below this it is young: 20 weeks. */
  readonly preferredFrom: number;
  /** Above this it is past its best: 12 months. */
  readonly bestUntil: number;
  /** Above this fertility has usually fallen: 18 months. */
  readonly fertileUntil: number;
}

/** Days of rest since a fish's last spawn: below `least` it is resting, below `preferred` the rest was short. */
export interface RestDays {
  readonly least: number;
  readonly preferred: number;
}

/**
 * Points each term adds to a pairing's score for one unit of the term. The score is the plain sum; it puts a list in
 * order and is neither a probability nor a forecast.
 */
export interface ScoreWeights {
  /** A unit is F = 1: with -100, each 1 % of F costs one point. */
  readonly inbreeding: number;
  /** A unit is certainty: the expected share of the brood in a wanted class, per wish (times the wish's own weight). */
  readonly wanted: number;
  /** The same for an unwanted class; normally negative. */
  readonly unwanted: number;
  /** A unit is one standard deviation of the candidates' latest scores, per trait (times the trait's own weight). */
  readonly traits: number;
  /** A unit is ancestry wholly unrecorded on the lesser-known side. */
  readonly unknownAncestry: number;
  /** Per warning of severity `caution`. */
  readonly caution: number;
  /** Per warning of severity `stop`. */
  readonly stop: number;
}

/** The limits and weights that pairings are judged by: built-in guides ({@link DEFAULT_SETTINGS}) unless the caller gives others. */
export interface PairingSettings {
  /** F of the brood above which a pairing gets a caution. A guide, not a bar. */
  readonly inbreedingCeiling: number;
  readonly ages: AgeLimits;
  readonly rest: { readonly male: RestDays; readonly female: RestDays };
  /** Generations of ancestors looked at when asking how well a fish's ancestry is known. */
  readonly ancestryGenerations: number;
  /** Known share of those ancestors below which it is noted that F may be higher than shown. */
  readonly knownAncestryFrom: number;
  /** Dam's body length over sire's outside of which sizes are called mismatched; `null` asks for no such check. */
  readonly bodyLengthRatio: { readonly least: number; readonly most: number } | null;
  readonly weights: ScoreWeights;
}

/** Any part of the settings; what is left out stays at its default. */
export interface PairingSettingsInput extends Partial<
  Omit<PairingSettings, 'ages' | 'rest' | 'weights'>
> {
  readonly ages?: Partial<AgeLimits>;
  readonly rest?: { readonly male?: Partial<RestDays>; readonly female?: Partial<RestDays> };
  readonly weights?: Partial<ScoreWeights>;
}

/**
 * Defaults. Ages and rests are *Betta splendens* practice (basis: common practice, no source): capable at 12 weeks,
 * preferred from 20, at best from 4 to 12 months, fertility usually falling after 12 to 18 months; females rest 14 to 21
 * days, males 7 to 14, and for welfare the longer figure is preferred. The ceiling is the F of a half-brother by
 * half-sister mating, chosen by convention: one brother by sister mating already doubles it.
 */
export const DEFAULT_SETTINGS: PairingSettings = {
  inbreedingCeiling: 0.125,
  ages: { capableFrom: 84, preferredFrom: 140, bestUntil: 365, fertileUntil: 548 },
  rest: { male: { least: 7, preferred: 14 }, female: { least: 14, preferred: 21 } },
  ancestryGenerations: 4,
  knownAncestryFrom: 0.5,
  bodyLengthRatio: null,
  weights: {
    inbreeding: -100,
    wanted: 30,
    unwanted: -30,
    traits: 5,
    unknownAncestry: -5,
    caution: -5,
    stop: -100,
  },
};

/**
 * Fills what is left out and checks the rest.
 *
 * Throws `MatingError` with code `MATING_BAD_SETTING` for a ceiling or share outside 0 to 1, ages or rests out of order,
 * or a weight that is not a finite number.
 */
export function completeSettings(input: PairingSettingsInput = {}): PairingSettings {
  const defaults = DEFAULT_SETTINGS;
  const settings: PairingSettings = {
    ...defaults,
    ...input,
    ages: { ...defaults.ages, ...input.ages },
    rest: {
      male: { ...defaults.rest.male, ...input.rest?.male },
      female: { ...defaults.rest.female, ...input.rest?.female },
    },
    weights: { ...defaults.weights, ...input.weights },
  };
  checkShare('inbreedingCeiling', settings.inbreedingCeiling);
  checkShare('knownAncestryFrom', settings.knownAncestryFrom);
  const { ages, rest } = settings;
  checkRising('ages', [0, ages.capableFrom, ages.preferredFrom, ages.bestUntil, ages.fertileUntil]);
  checkRising('rest.male', [0, rest.male.least, rest.male.preferred]);
  checkRising('rest.female', [0, rest.female.least, rest.female.preferred]);
  const generations = settings.ancestryGenerations;
  if (!Number.isInteger(generations) || generations < 1 || generations > 20) {
    refuse('ancestryGenerations', generations, 'a whole number from 1 to 20');
  }
  const ratio = settings.bodyLengthRatio;
  if (ratio) checkRising('bodyLengthRatio', [0, ratio.least, ratio.most]);
  for (const [name, weight] of Object.entries(settings.weights) as [string, number][]) {
    if (!Number.isFinite(weight)) refuse(`weights.${name}`, weight, 'a finite number');
  }
  return settings;
}

function checkShare(name: string, value: number): void {
  if (!(value >= 0 && value <= 1)) refuse(name, value, 'a share from 0 to 1');
}

function checkRising(name: string, values: readonly number[]): void {
  const rising = values.every(
    (value, k) => Number.isFinite(value) && value >= (values[k - 1] ?? value),
  );
  if (!rising)
    refuse(name, values.slice(1).join(', '), 'figures of 0 or more, none below the one before it');
}

function refuse(name: string, value: number | string, wanted: string): never {
  throw new MatingError(
    'MATING_BAD_SETTING',
    name,
    `Setting ${name} is ${String(value)}; it must be ${wanted}.`,
  );
}
