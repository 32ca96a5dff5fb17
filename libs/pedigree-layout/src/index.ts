export { layoutPedigree, type LayoutOptions } from './layout-pedigree.js';
export { LayoutError, type LayoutErrorCode } from './layout-error.js';
export { PLANNED_BROOD_ID, withPlannedBrood, type PlannedBrood, type SliceFish } from './slice.js';
export { traceHighlight, type HighlightStep, type PathHighlight } from './highlight.js';
export { navigate, type Move, type Navigator, type NodeKin } from './navigation.js';
export {
  matingIdOf,
  offspringLinkId,
  parentLinkId,
  type PedigreeScene,
  type SceneBounds,
  type SceneFish,
  type SceneFold,
  type SceneLayer,
  type SceneLink,
  type SceneMating,
  type SceneNode,
  type ScenePoint,
} from './scene.js';
