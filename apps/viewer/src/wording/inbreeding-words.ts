import type { EnumValues } from './words.js';
import { percent } from './figures.js';

export type InbreedingBasis = EnumValues<'InbreedingBasis'>;

/** An F and how far it can be trusted. */
export interface ToldInbreeding {
  inbreedingCoefficient: number;
  inbreedingBasis: InbreedingBasis;
}

/** F as every table, card and heading writes it: "12.50 %", "≥ 12.50 %" with fish of unknown origin behind it, "not known". */
export function inbreedingText({ inbreedingCoefficient, inbreedingBasis }: ToldInbreeding): string {
  if (inbreedingBasis === 'UNKNOWN') return 'not known';
  const text = percent(inbreedingCoefficient);
  return inbreedingBasis === 'AT_LEAST' ? `≥ ${text}` : text;
}

/** What the marks of {@link inbreedingText} mean, for the foot of a table. */
export const INBREEDING_MARKS =
  '≥: fish of unknown origin are behind this F. They count as unrelated, so the true F is this or more. Not known: a parent itself is not known.';

/** A mean, range or sum of F or coancestries of fish of which some may be of unknown origin: "≥ 12.50 %" then. */
export function leastPercent(value: number, known: boolean, decimals?: number): string {
  return `${known ? '' : '≥ '}${percent(value, decimals)}`;
}

/** Whether the origin of each of these fish is known, so that a mean of their F or coancestries is one too. */
export const allKnown = (fish: readonly Pick<ToldInbreeding, 'inbreedingBasis'>[]): boolean =>
  fish.every((one) => one.inbreedingBasis === 'KNOWN');

/** Put behind a mean or a range of F: empty when every F of it is known. */
export function leastText(fish: readonly Pick<ToldInbreeding, 'inbreedingBasis'>[]): string {
  const unknown = fish.filter((one) => one.inbreedingBasis !== 'KNOWN').length;
  if (unknown === 0) return '';
  return `, or more: fish of unknown origin are behind ${unknown} of ${fish.length} of these F`;
}

/** Put beside a mean of coancestries of these fish: null when the origin of each is known. */
export function leastMeanText(
  fish: readonly Pick<ToldInbreeding, 'inbreedingBasis'>[],
): string | null {
  const unknown = fish.filter((one) => one.inbreedingBasis !== 'KNOWN').length;
  if (unknown === 0) return null;
  return `this or more: fish of unknown origin are behind ${unknown} of ${fish.length} fish in use`;
}
