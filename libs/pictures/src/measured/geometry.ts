import { PicturesError } from '../pictures-error.js';

/** A place in a picture, in its pixels from the left and from the top. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Where the head of the fish points in the picture, as it is looked at. */
export type Heads = 'left' | 'right';

/** Nearer than this a pixel off would turn a ray by more than ten degrees. */
const NEAREST = 6;

export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

const degrees = (radians: number): number => (radians * 180) / Math.PI;

const directionOf = (from: Point, to: Point): number => Math.atan2(to.y - from.y, to.x - from.x);

/**
 * Spread of a tail: the angle at its base between its uppermost and its lowest ray, measured over the tail, so that it may be more than
 * half a circle. The spread in degrees with the tail flared is how show standards tell a halfmoon (180) from lesser spreads; that its
 * three points are the base of the tail and a point along each outermost ray is common practice, with no source.
 *
 * @param base middle of the base of the tail. @param upper and `lower` any points along the two outermost rays: how far out changes
 * nothing for straight rays. @param heads which way the fish looks, since three points alone do not say on which side the tail is.
 * @returns degrees above 0 and below 360; turning, shifting and enlarging the picture change nothing.
 * @throws PicturesError MARKING_TOO_CLOSE where a point lies on the base, or both rays on one another.
 * @example spreadOf({ x: 0, y: 0 }, { x: 0, y: -50 }, { x: 0, y: 50 }, 'left') // 180
 */
export function spreadOf(base: Point, upper: Point, lower: Point, heads: Heads): number {
  for (const ray of [upper, lower])
    if (distance(base, ray) < NEAREST)
      throw new PicturesError(
        'MARKING_TOO_CLOSE',
        'A ray is marked on the base of the tail: mark it further out.',
      );
  const turn = directionOf(base, lower) - directionOf(base, upper);
  const over = heads === 'left' ? turn : -turn;
  const spread = ((degrees(over) % 360) + 360) % 360;
  if (spread < 1 || spread > 359)
    throw new PicturesError(
      'MARKING_TOO_CLOSE',
      'The upper and the lower ray are marked one on the other: mark the outermost ray on each side.',
    );
  return spread;
}

/** A length in the picture that is known: a ruler, or the jar. */
export interface PictureScale {
  readonly from: Point;
  readonly to: Point;
  readonly millimetres: number;
}

/** @throws PicturesError MARKING_NO_SCALE where it has no length, in the picture or in millimetres. */
export function millimetresAPixel({ from, to, millimetres }: PictureScale): number {
  const pixels = distance(from, to);
  if (!(millimetres > 0) || pixels < NEAREST)
    throw new PicturesError(
      'MARKING_NO_SCALE',
      'The scale has no length: mark both ends of something whose length you know, well apart, and give that length in millimetres.',
    );
  return millimetres / pixels;
}

/**
 * Length along a line of marked points.
 *
 * @returns millimetres. The scale has to lie as far from the camera as the fish: common practice, with no source.
 * @throws PicturesError MARKING_TOO_FEW_POINTS, MARKING_TOO_CLOSE, MARKING_NO_SCALE
 */
export function lengthOf(points: readonly Point[], scale: PictureScale): number {
  if (points.length < 2)
    throw new PicturesError('MARKING_TOO_FEW_POINTS', 'Mark both ends of the length.');
  const pixels = points.slice(1).reduce((sum, to, k) => sum + distance(points[k]!, to), 0);
  if (pixels < NEAREST)
    throw new PicturesError(
      'MARKING_TOO_CLOSE',
      'Both ends are marked at one place: mark them where the length begins and ends.',
    );
  return pixels * millimetresAPixel(scale);
}

/**
 * By how much a spread changes at most when each of its points is a pixel off: what a small picture costs.
 *
 * @returns degrees
 */
export const spreadOfAPixel = (base: Point, upper: Point, lower: Point): number =>
  degrees(2 / distance(base, upper) + 2 / distance(base, lower));

/**
 * What a flat tail looks like when the fish stands askew: turned about an upright axis it is narrowed along its length by the cosine of the
 * turn. A spread below half a circle then looks larger than it is, one above smaller; 180 degrees stay 180.
 *
 * @param spread true degrees, the tail as wide above as below. @param turn degrees out of the plane of the picture, below 90.
 * @returns degrees as they would be marked.
 */
export function spreadSeenAskew(spread: number, turn: number): number {
  const half = (spread * Math.PI) / 360;
  const narrowed = Math.cos(half) * Math.cos((turn * Math.PI) / 180);
  return degrees(2 * Math.atan2(Math.sin(half), narrowed));
}
