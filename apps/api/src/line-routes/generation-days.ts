import type { PairingRules } from '@linewright/mating';

/** Days from pairing to hatching and free swimming, and for conditioning the pair before it; common practice, no source. */
export const PAIRING_DAYS = 14;
export const DAYS_BASIS =
  'Age from which a fish is best paired, by the rules of the line, and 14 days for conditioning, spawning and hatching: common practice, no source.';
/** Mean length of a month. */
export const MONTH_DAYS = 30.44;

/** From one generation to the next. */
export const generationDays = ({ ages }: PairingRules): number => ages.preferredFrom + PAIRING_DAYS;

/** In how many generations one fish can be a parent, from the age at which it is best paired to that at which fertility falls. */
export const parentGenerations = (rules: PairingRules): number =>
  1 +
  Math.max(
    0,
    Math.floor((rules.ages.fertileUntil - rules.ages.preferredFrom) / generationDays(rules)),
  );
