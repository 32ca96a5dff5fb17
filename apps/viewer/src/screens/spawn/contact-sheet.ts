import { notDrawn } from '@linewright/pictures';
import type { FishPicture } from '../../api/photos.js';

export type ShownAs = 'photo' | 'drawn' | 'none';

/** What stands in the place of a fish's picture. */
export function shownAs(picture: FishPicture | undefined): ShownAs {
  if (picture === undefined) return 'none';
  if (picture.photo !== null) return 'photo';
  const shows = Object.fromEntries(picture.looks.map((one) => [one.locusId, one.phenotype]));
  return notDrawn(shows).length < picture.looks.length ? 'drawn' : 'none';
}

/** How many stand there in which way, so that a drawing is never taken for a photo. */
export function picturedWords(shown: readonly ShownAs[]): string {
  const count = (as: ShownAs): number => shown.filter((one) => one === as).length;
  const parts = [
    [count('photo'), 'with a picture'],
    [count('drawn'), 'drawn from what was seen'],
    [count('none'), 'with neither'],
  ] as const;
  return `${parts
    .filter(([number]) => number > 0)
    .map(([number, words]) => `${number} ${words}`)
    .join(', ')}.`;
}
