import { PicturesError } from '../pictures-error.js';
import { colourAround, type Pixels, shareOfColour } from './colour.js';
import { type Heads, lengthOf, type PictureScale, type Point, spreadOf } from './geometry.js';

export const MARKING_KINDS = ['spread', 'length', 'count', 'colour'] as const;
export type MarkingKind = (typeof MARKING_KINDS)[number];

/** Most points of one marking: more are a slip. */
export const MOST_POINTS = 200;

/** What was marked on a picture, in pixels of the picture as it is kept: enough to work the figure out again. */
export interface Marking {
  readonly kind: MarkingKind;
  /** Of a spread: base, upper and lower ray. Of a length: along it. Of a count: one each. Of colour: the outline. */
  readonly points: readonly Point[];
  /** Of a spread. */
  readonly heads?: Heads;
  /** Of a length. */
  readonly scale?: PictureScale;
  /** Of colour: where it is as looked for, and how far from that still counts (ΔE*ab). */
  readonly colour?: { readonly at: Point; readonly tolerance: number };
  /** Whether the fish stood side on, as whoever marked it says: one picture alone cannot prove it. */
  readonly flat: boolean;
}

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

const FEWEST: Readonly<Record<MarkingKind, number>> = { spread: 3, length: 2, count: 1, colour: 3 };

/** Refuses points that are no numbers or lie outside of the picture. */
function expectPlaces(marking: Marking, { width, height }: PictureSize): void {
  const { points, scale, colour } = marking;
  const all = [
    ...points,
    ...(scale === undefined ? [] : [scale.from, scale.to]),
    ...(colour === undefined ? [] : [colour.at]),
  ];
  for (const { x, y } of all) {
    if (!Number.isFinite(x) || !Number.isFinite(y))
      throw new PicturesError('MARKING_NOT_A_NUMBER', 'A point has no place: mark it again.');
    if (x < 0 || y < 0 || x > width || y > height)
      throw new PicturesError(
        'MARKING_OUTSIDE',
        `A point lies outside of the picture, which is ${width} by ${height} pixels: mark it again.`,
      );
  }
}

function expectPoints({ kind, points }: Marking): void {
  const least = FEWEST[kind];
  if (points.length < least)
    throw new PicturesError(
      'MARKING_TOO_FEW_POINTS',
      `${points.length} of the ${least} points are marked: mark the others too.`,
    );
  if (points.length > MOST_POINTS || (kind === 'spread' && points.length > 3))
    throw new PicturesError(
      'MARKING_TOO_FEW_POINTS',
      `${points.length} points are too many for one marking: begin again.`,
    );
}

/**
 * The figure of a marking: degrees, millimetres, a number, or per cent.
 *
 * @param size of the picture as it is kept. @param pixels the picture, or a smaller copy; asked for only where colour is measured.
 * @throws PicturesError
 */
export async function measuredOn(
  marking: Marking,
  size: PictureSize,
  pixels: () => Promise<Pixels>,
): Promise<number> {
  expectPoints(marking);
  expectPlaces(marking, size);
  const { kind, points } = marking;
  if (kind === 'count') return points.length;
  if (kind === 'spread') {
    const [base, upper, lower] = points;
    return spreadOf(base!, upper!, lower!, marking.heads ?? 'left');
  }
  if (kind === 'length') {
    if (marking.scale === undefined)
      throw new PicturesError('MARKING_NO_SCALE', 'Mark a length that you know as the scale.');
    return lengthOf(points, marking.scale);
  }
  return colourShareOn(marking, size, await pixels());
}

function colourShareOn({ points, colour }: Marking, size: PictureSize, pixels: Pixels): number {
  if (colour === undefined)
    throw new PicturesError('MARKING_TOO_FEW_POINTS', 'Mark a place that has the colour.');
  const smaller = ({ x, y }: Point): Point => ({
    x: (x * pixels.width) / size.width,
    y: (y * pixels.height) / size.height,
  });
  const like = colourAround(pixels, smaller(colour.at));
  return shareOfColour(pixels, points.map(smaller), like, colour.tolerance);
}
