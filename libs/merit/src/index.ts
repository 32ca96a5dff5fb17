export { MeritError, type MeritErrorCode } from './merit-error.js';
export { fQuantile, fUpperTail, studentTwoSided } from './distributions.js';
export { repeatability, type Interval, type Repeatability } from './repeatability.js';
export { repeatGroups, type DatedScore } from './repeats.js';
export { scorerDifferences, type ScoredOnce, type ScorerDifference } from './scorer-difference.js';
export {
  sheetTotal,
  type SeenFault,
  type SheetLine,
  type SheetPart,
  type SheetTotal,
} from './sheet-total.js';
export { isWholeScale, type ScoreScale, type ScoreSlip, scoreSlip } from './valid-score.js';
export type {
  FixedColumn,
  MixedModel,
  RandomSlot,
  RandomTerm,
  Variances,
} from './mixed/mixed-model.js';
export { Equations } from './mixed/equations.js';
export { Fit } from './mixed/fit.js';
export type { FixedEquation, ToldTwice } from './mixed/fixed-design.js';
export { reml, type RemlOptions, type RemlResult } from './mixed/reml.js';
export {
  ADDITIVE,
  animalModel,
  PERMANENT,
  type AnimalModel,
  type AnimalScores,
  type SharedColumn,
} from './values/animal-model.js';
export { groupsOfFounders, groupShares, type FounderGroups } from './values/genetic-groups.js';
export {
  breedingValues,
  solveAt,
  solveAtRatios,
  solved,
  type BreedingValues,
  type SolvedModel,
} from './values/breeding-values.js';
export {
  valuesAtHeritability,
  valuesByReml,
  type Valuation,
  type ValuationOptions,
} from './values/estimate.js';
export type { ComponentMatrix, Components, Estimate, FixedEffect } from './values/components.js';
export type { MeritNote, MeritNoteCode } from './values/notes.js';
