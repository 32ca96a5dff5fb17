import { type Marking, millimetresAPixel, spreadOfAPixel } from '@linewright/pictures';
import type { MarkingError } from '../../api/photos.js';
import { plainNumber, plural } from '../../wording/figures.js';

/** What is asked for, for each kind. */
export const howToMark = {
  spread:
    'Put the base of the tail in the middle of where it joins the body, then a point far out along the uppermost and the lowest ray. The fish should flare, its tail spread.',
  length:
    'Put both ends of the length, then both ends of something whose length you know: a ruler, as far from the camera as the fish.',
  count: 'Put a point on each; then read how many there are.',
  colour:
    'Put one point on the colour you look for, then draw an outline around the part of the fish, point by point.',
} as const;

export const figureWords = (value: number, unit: string | null): string =>
  `${plainNumber(value, 1)}${unit === null ? '' : unit === '°' ? '°' : ` ${unit}`}`;

/** By how much the figure changes at most when its points are a pixel off; null where that says nothing. */
export function aPixelOff(marking: Marking): number | null {
  const [a, b, c] = marking.points;
  if (marking.kind === 'spread' && a !== undefined && b !== undefined && c !== undefined)
    return spreadOfAPixel(a, b, c);
  if (marking.kind === 'length' && marking.scale !== undefined)
    return 2 * millimetresAPixel(marking.scale);
  return null;
}

export function errorWords(error: MarkingError | null, unit: string | null): string {
  if (error === null)
    return 'How far two markings of one picture lie apart is not known yet: mark a picture a second time, or ask somebody else to, without looking at the first figure.';
  const { deviation, repeatability, pictures, markings, byTwoPeople } = error;
  const few = pictures < 10 ? ' That is few: ten pictures make a start.' : '';
  return `Markings of one picture scatter by ${figureWords(deviation, unit)} (standard deviation), and two of them differ by less than ${figureWords(repeatability, unit)} in 95 of 100 cases: from ${plural(markings, 'marking')} of ${plural(pictures, 'picture')}, ${byTwoPeople} of them marked by two people or more.${few}`;
}

export const ASKEW =
  'The fish is not said to stand side on. Turned towards or away from the camera, a spread below 180° looks larger and one above it smaller, and a length shorter: at 30° a length loses 13 in 100. One picture alone cannot show this. Mark it only if you know it stands side on, or take another picture.';
