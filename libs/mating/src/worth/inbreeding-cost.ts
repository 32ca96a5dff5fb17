import { expectedPoints } from './expected-points.js';
import type { WorthTrait } from './pair-worths.js';

/**
 * Share of a standard deviation that young lose for each 0.1 of their F, where the keeper states nothing else: the median over 154 studies of
 * seven livestock species, 0.59 % of a standard deviation for each 1 % of F (Doekes HP, Bijma P, Windig JJ 2021, Genes 12:926, abstract
 * read). None of the species is a fish.
 */
export const STATED_LOSS = 0.059;

/** Points that a young loses for each 0.1 of its F, and whose word that is. */
export interface InbreedingCost {
  readonly points: number;
  readonly basis: 'person' | 'stated-rate';
}

/** What the keeper states, else {@link STATED_LOSS} of the standard deviation of points in the line as it is. */
export function inbreedingCost(
  stated: number | null,
  traits: readonly WorthTrait[],
): InbreedingCost {
  if (stated !== null) return { points: stated, basis: 'person' };
  const variance = traits.reduce(
    (sum, { aim, line }) => sum + expectedPoints(aim, line.mean, line.deviation ** 2).variance,
    0,
  );
  return { points: STATED_LOSS * Math.sqrt(variance), basis: 'stated-rate' };
}
