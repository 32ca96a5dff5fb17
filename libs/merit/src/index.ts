export { MeritError, type MeritErrorCode } from './merit-error.js';
export {
  fQuantile,
  fUpperTail,
  normalBelow,
  normalDensity,
  normalQuantile,
  studentTwoSided,
} from './distributions.js';
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
export { iterate, type Iterated, type IterationOptions } from './mixed/iterate.js';
export { Fit } from './mixed/fit.js';
export type { FixedEquation, ToldTwice } from './mixed/fixed-design.js';
export {
  inbreedingOfMeasure,
  type MeasuredInbreeding,
  type MeasuredRows,
  type MeasureDepression,
} from './load/inbreeding-of-measure.js';
export { reml, type RemlOptions, type RemlResult } from './mixed/reml.js';
export {
  ADDITIVE,
  animalModel,
  traitsLookedAtAgain,
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
export {
  componentsOf,
  type ComponentMatrix,
  type Components,
  type Estimate,
  type FixedEffect,
} from './values/components.js';
export { writtenModel, type WrittenModel } from './values/written-model.js';
export { notesOn, type MeritNote, type MeritNoteCode } from './values/notes.js';
export { betaPrior, fishSizePrior, flatPrior, type HeritabilityPrior } from './values/prior.js';
export { valuesOverHeritability, type IntegrationOptions } from './values/integrate.js';
export { Posterior, type Band, type HeritabilityKnown } from './values/posterior.js';
export { bandsOfAll } from './values/mixture-bands.js';
export {
  solveThreshold,
  type ThresholdModel,
  type ThresholdSolution,
} from './threshold/threshold-model.js';
export type { ThresholdParts } from './threshold/threshold-parts.js';
export { MomentsSolver, type ThresholdMoments } from './threshold/threshold-moments.js';
export {
  asNumbers,
  classesOverHeritability,
  type ClassScores,
  FIXED_DEVIATION,
} from './threshold/values-of-classes.js';
export { moreClasses, type MoreClasses } from './threshold/more-classes.js';
export { partWays, type PartedWays, type TwoRanks } from './threshold/part-ways.js';
export {
  variancesAtHeritabilities,
  type GivenTraits,
  type TraitsAtHeritability,
} from './values/several-traits.js';
export {
  traitsTogether,
  type TermCorrelation,
  type TogetherVerdict,
  type TraitsTogether,
} from './values/traits-together.js';
export { normals } from './values/draw-scores.js';
export {
  keptByIteration,
  type KeptModel,
  KeptSolution,
  type OneScore,
  type ToldOfStock,
} from './values/one-more.js';
export { meanBreedingValue, reasonsFor, type Reason } from './values/reasons.js';
export { errorsTogether } from './values/errors-together.js';
export {
  linkage,
  linkageBySex,
  lodScore,
  productRatio,
  type Linkage,
  type LinkageBrood,
} from './linkage/linkage.js';
export { segregationRatio, type SegregationRatio, type Sibships } from './linkage/sibships.js';
export {
  fitBetaBinomial,
  fitLogitNormal,
  type BroodCounts,
  type CountFit,
  type CountLink,
} from './load/counts-model.js';
export {
  costOfInbreeding,
  excessRisk,
  inbreedingLoad,
  loadFromLosses,
  type CountedBroods,
  type InbreedingLoad,
  type LoadAnswer,
} from './load/inbreeding-load.js';
export {
  broodInbreeding,
  RECENT_GENERATIONS,
  type BroodInbreeding,
  type InbreedingColumn,
} from './load/inbreeding-covariates.js';
export { narrowedBy, narrowedByEach, type Narrowing, type NowAndThen } from './plan/narrowing.js';
export { type PlannedBrood, type ScorePlan } from './plan/planned-scores.js';
export { worthScoring, type WorthScoring } from './plan/worth-scoring.js';
export { partOfStock, type PartOfStock, type PartOptions } from './records/part-of-stock.js';
export { DOZEN, randomDozen } from './records/random-dozen.js';
export {
  selectionOfScores,
  type BroodOnRecord,
  type BroodSelection,
  type ScoredWhen,
  type SelectionOfScores,
} from './records/selected-scores.js';
export { sampledErrorVariances, type SamplingOptions } from './values/sampled-errors.js';
export {
  solveByWork,
  type GivenVariances,
  type ValuesByWork,
  type WorkOptions,
} from './values/solve-by-work.js';
export { selectionIntensity, sibComponents, type SibComponents } from './response/selection.js';
export {
  responseByGeneration,
  type GenerationOfTrait,
  type TraitResponse,
} from './response/response.js';
export { locusModel, type LocusModel } from './segregation/locus-model.js';
export { pedigreeLogLikelihood } from './segregation/pedigree-likelihood.js';
export {
  weighInheritance,
  type InheritanceCode,
  type WeighedHypothesis,
  type WeighedInheritance,
} from './segregation/weigh-hypotheses.js';
