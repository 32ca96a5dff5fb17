export {
  eachInbreedingPath,
  inbreedingPaths,
  inbreedingPathsOf,
  type InbreedingPath,
  type PathExplanation,
  type PathOptions,
} from './inbreeding-paths.js';
export type { CommonAncestor } from './common-ancestors.js';
export { inbreedingOrigins, type InbreedingOrigin, type InbreedingOrigins } from './origins.js';
export {
  partialInbreedingByFounder,
  partialInbreedingThrough,
  type PartialInbreeding,
  type PartialInbreedingByFounder,
} from './partial-inbreeding.js';
export { inbreedingByAge, recentInbreeding, type RecentInbreeding } from './inbreeding-age.js';
export { ancestralInbreeding } from './ancestral-inbreeding.js';
export {
  inbreedingBand,
  inbreedingBands,
  measuredEffects,
  noBettaFigure,
  outcrossIsATrial,
  type Basis,
  type InbreedingBand,
  type MeasuredEffect,
} from './depression.js';
