import { daysBetween } from '@linewright/care';
import type { Photo } from '../../api/photos.js';
import { plural } from '../../wording/figures.js';

/** How old the fish was in a picture, in whole weeks; null where the day of either is not on record, or the picture is older than the fish. */
export function weeksIn(
  { takenOn }: Pick<Photo, 'takenOn'>,
  hatchDate: string | null,
): number | null {
  if (takenOn === null || hatchDate === null) return null;
  const days = daysBetween(hatchDate, takenOn);
  return days < 0 ? null : Math.floor(days / 7);
}

export const weeksWords = (weeks: number | null): string =>
  weeks === null ? 'age not known' : plural(weeks, 'week');

/** The order of a life: oldest day first, those without a day last. */
export const inOrderOfDays = <One extends Pick<Photo, 'takenOn'>>(photos: readonly One[]): One[] =>
  [...photos].sort((a, b) => (a.takenOn ?? '9999').localeCompare(b.takenOn ?? '9999'));
