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

/** The limits that pairings are judged by: built-in guides ({@link DEFAULT_SETTINGS}) unless the caller gives others. */
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
}

/** Any part of the settings; what is left out stays at its default. */
export interface PairingSettingsInput extends Partial<Omit<PairingSettings, 'ages' | 'rest'>> {
  readonly ages?: Partial<AgeLimits>;
  readonly rest?: { readonly male?: Partial<RestDays>; readonly female?: Partial<RestDays> };
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
};

/**
 * Fills what is left out and checks the rest.
 *
 * Throws `MatingError` with code `MATING_BAD_SETTING` for a ceiling or share outside 0 to 1, or ages or rests out of
 * order.
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
  return settings;
}

/** What a pair of two lines keeps to: the lower F, the larger known share of ancestors, and sizes that both allow. Ages and rests are those of each fish, and stay the first one's here. */
export function stricterOfBoth(one: PairingSettings, other: PairingSettings): PairingSettings {
  const [a, b] = [one.bodyLengthRatio, other.bodyLengthRatio];
  return {
    ...one,
    inbreedingCeiling: Math.min(one.inbreedingCeiling, other.inbreedingCeiling),
    knownAncestryFrom: Math.max(one.knownAncestryFrom, other.knownAncestryFrom),
    bodyLengthRatio:
      a === null || b === null
        ? (a ?? b)
        : { least: Math.max(a.least, b.least), most: Math.min(a.most, b.most) },
  };
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
