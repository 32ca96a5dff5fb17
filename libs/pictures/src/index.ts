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
