export { FISH_BOX } from './drawn/fish-form.js';
export {
  fishLook,
  type FishLook,
  type KnownBeside,
  type NamedLook,
  notDrawn,
  type Shows,
  showsOf,
} from './drawn/fish-look.js';
export { fishLayers, type Layer } from './drawn/fish-paint.js';
export { fishSvg, type FishSvgOptions } from './drawn/fish-svg.js';
export {
  distance,
  type Heads,
  millimetresAPixel,
  type PictureScale,
  type Point,
  spreadOfAPixel,
  spreadSeenAskew,
} from './measured/geometry.js';
export { colourDistance, labOf, type Pixels } from './measured/colour.js';
export {
  type Marking,
  MARKING_KINDS,
  type MarkingKind,
  measuredOn,
  MOST_POINTS,
  type PictureSize,
} from './measured/marking.js';
export { type RepeatError, repeatErrorOf } from './measured/repeat-error.js';
export { PicturesError, type PicturesErrorCode } from './pictures-error.js';
