import { FISH_BOX } from './fish-form.js';
import type { FishLook } from './fish-look.js';
import { fishLayers, type Layer } from './fish-paint.js';

export interface FishSvgOptions {
  /** Pixels across; its height follows. */
  readonly width: number;
  /** Colour behind the fish. */
  readonly ground: string;
}

const attributes = ({ d, fill = 'none', stroke, width, opacity }: Layer): string =>
  [
    `d="${d}" fill="${fill}" opacity="${opacity}"`,
    stroke === undefined ? '' : ` stroke="${stroke}" stroke-width="${width}"`,
  ].join('');

/**
 * The drawn fish as a file of its own, in SVG, on a plain ground.
 *
 * @example fishSvg(fishLook({ bl: 'steel' }), { width: 480, ground: '#dfe9e4' }).slice(0, 4) // "<svg"
 */
export function fishSvg(look: FishLook, { width, ground }: FishSvgOptions): string {
  const { x, y, width: wide, height: high } = FISH_BOX;
  const height = Math.round((width * high) / wide);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="${x} ${y} ${wide} ${high}" color="#26312e">`,
    `<rect x="${x}" y="${y}" width="${wide}" height="${high}" fill="${ground}"/>`,
    ...fishLayers(look, true).map((layer) => `<path ${attributes(layer)}/>`),
    '</svg>',
  ].join('');
}
