import { PicturesError } from '../pictures-error.js';
import type { Point } from './geometry.js';

/** Pixels in rows from the top, three or four bytes each: red, green, blue (sRGB), and whatever else. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly channels: 3 | 4;
  readonly data: ArrayLike<number>;
}

export type Lab = readonly [number, number, number];

const linear = (byte: number): number => {
  const part = byte / 255;
  return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
};
const curved = (part: number): number =>
  part > 216 / 24389 ? Math.cbrt(part) : ((24389 / 27) * part + 16) / 116;

/**
 * A colour of a screen in CIE L*a*b*, in which equal distances look about equally different.
 *
 * Sources: IEC 61966-2-1 (sRGB, its primaries and white D65); CIE 15 (the formulas of L*, a*, b*).
 */
export function labOf(red: number, green: number, blue: number): Lab {
  const [r, g, b] = [linear(red), linear(green), linear(blue)];
  const x = curved((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047);
  const y = curved(0.2126729 * r + 0.7151522 * g + 0.072175 * b);
  const z = curved((0.0193339 * r + 0.119192 * g + 0.9503041 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** Distance of two colours, ΔE*ab of 1976 (CIE 15). */
export const colourDistance = (a: Lab, b: Lab): number =>
  Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

const labAt = ({ width, channels, data }: Pixels, x: number, y: number): Lab => {
  const at = (y * width + x) * channels;
  return labOf(data[at] ?? 0, data[at + 1] ?? 0, data[at + 2] ?? 0);
};

const within = (value: number, size: number): number =>
  Math.min(size - 1, Math.max(0, Math.floor(value)));

/** Mean colour of the five by five pixels around a place: one pixel alone is mostly noise. */
export function colourAround(pixels: Pixels, { x, y }: Point): Lab {
  const sum = [0, 0, 0];
  for (let dy = -2; dy <= 2; dy++)
    for (let dx = -2; dx <= 2; dx++)
      labAt(pixels, within(x + dx, pixels.width), within(y + dy, pixels.height)).forEach(
        (part, k) => (sum[k] = (sum[k] ?? 0) + part / 25),
      );
  return [sum[0] ?? 0, sum[1] ?? 0, sum[2] ?? 0];
}

/** Whether a place lies within an outline, by how often a line to the left of it crosses the outline. */
export function isWithin(outline: readonly Point[], x: number, y: number): boolean {
  let inside = false;
  for (const [k, a] of outline.entries()) {
    const b = outline[(k + 1) % outline.length]!;
    if (a.y > y !== b.y > y && x > a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
  }
  return inside;
}

/**
 * Share of an outlined part of the fish that is of about one colour.
 *
 * @param outline at least three points, in the pixels of this picture. @param like the colour looked for.
 * @param tolerance largest distance (ΔE*ab) that still counts as that colour.
 * @returns per cent; cost linear in the pixels.
 * @throws PicturesError MARKING_TOO_FEW_POINTS, MARKING_TOO_CLOSE where no pixel lies within.
 */
export function shareOfColour(
  pixels: Pixels,
  outline: readonly Point[],
  like: Lab,
  tolerance: number,
): number {
  if (outline.length < 3)
    throw new PicturesError('MARKING_TOO_FEW_POINTS', 'Mark an outline of three points or more.');
  let all = 0;
  let alike = 0;
  for (let y = 0; y < pixels.height; y++)
    for (let x = 0; x < pixels.width; x++) {
      if (!isWithin(outline, x + 0.5, y + 0.5)) continue;
      all += 1;
      if (colourDistance(labAt(pixels, x, y), like) <= tolerance) alike += 1;
    }
  if (all === 0)
    throw new PicturesError(
      'MARKING_TOO_CLOSE',
      'The outline holds nothing of the picture: mark its points further apart.',
    );
  return (100 * alike) / all;
}
