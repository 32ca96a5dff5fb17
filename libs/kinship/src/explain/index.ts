export {
  eachInbreedingPath,
  inbreedingPaths,
  inbreedingPathsOf,
  type InbreedingPath,
  type PathExplanation,
  type PathOptions,
} from './inbreeding-paths.js';
export type { CommonAncestor } from './common-ancestors.js';
