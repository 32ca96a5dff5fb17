export { CareError, type CareErrorCode } from './care-error.js';
export { DAY, HOUR, daysBetween, hoursText } from './time-units.js';
export {
  endings,
  isSpawnEvent,
  spawnEvents,
  type CareBasis,
  type CareRepeat,
  type CareStep,
  type CareStepKind,
  type CareTemplate,
  type CareTiming,
  type SpawnEventId,
} from './timeline/template.js';
export { defaultTemplate } from './timeline/default-template.js';
export {
  figureHours,
  figuresBeside,
  publishedFigures,
  type PublishedFigure,
} from './timeline/published-figures.js';
export {
  checkTemplate,
  type TemplateProblem,
  type TemplateProblemCode,
  MOST_STEPS,
} from './timeline/check-template.js';
export type {
  AnchorCertainty,
  CareRecord,
  CarePlan,
  CareReason,
  CareState,
  CareWindow,
  NoLonger,
  PlannedStep,
} from './timeline/plan-shapes.js';
export { carePlan, type CarePlanInput } from './timeline/plan.js';
export { occurrences, type CareOccurrence } from './timeline/occurrences.js';
export { outOfOrder, type OutOfOrder } from './timeline/log-order.js';
export {
  daysAsRecords,
  impossibleIntervals,
  impossibleIntervalText,
  possibleIntervals,
  type ImpossibleInterval,
  type PossibleInterval,
} from './timeline/possible-intervals.js';
export { dayAfter, dayIn, startOfDay } from './timeline/zoned-days.js';
export {
  type AmmoniaNitrogen,
  type AmmoniaUnit,
  ammoniaIn,
  ammoniaNitrogen,
  ammoniaUnits,
  massPerNitrogen,
} from './water/ammonia-units.js';
export {
  type MixedWater,
  type NeededChange,
  type SourceWater,
  type SteadyPeak,
  afterChange,
  afterRepeatedChanges,
  mix,
  neededChange,
  steadyPeak,
} from './water/change-of-water.js';
export {
  type ChangeOutcome,
  type ChangePlan,
  type ChangeSteps,
  type ChangeWarning,
  type NewWater,
  type RiseByNewWater,
  planChange,
  usualShare,
} from './water/change-plan.js';
export { type ChangeAdvice, changeAdvice } from './water/advice.js';
export {
  electricityCaution,
  neverAcidCaution,
  standingPHCaution,
  tapWaterCaution,
} from './water/cautions.js';
export { type EpaCriteria, epaCriteria } from './water/epa-2013.js';
export {
  type AmmoniaLimit,
  type Confidence,
  type NitrogenGuide,
  ammoniaLimits,
  guideReached,
  limitAsNitrogen,
  nitrateAsIon,
  nitrogenGuides,
} from './water/limits.js';
export { type Trust, trustOf, usualTrustHours } from './water/trust.js';
export {
  type UnionisedAmmonia,
  type WaterState,
  ammoniumPKa,
  answeredCelsius,
  answeredPH,
  fahrenheitHint,
  mostTotalFor,
  unionisedAmmonia,
  unionisedShare,
} from './water/unionised.js';
export {
  type BroodCount,
  type BroodDay,
  type BroodDeparture,
  type BroodLives,
  type BroodRecord,
  type BroodWarning,
  type BroodWarningCode,
  type CullReading,
  broodLives,
  livesForEstimate,
} from './survival/brood-lives.js';
export {
  type DayOfLives,
  type SurvivalConfidence,
  type SurvivalStep,
  kaplanMeier,
  survivalOn,
} from './survival/kaplan-meier.js';
export {
  type BandPoint,
  type Comparison,
  bandOf,
  compareWithPast,
  pooledSurvival,
} from './survival/past-spawns.js';
export {
  type LabelPlace,
  type LabelSheet,
  type PageSize,
  cardGrids,
  expectSheetFits,
  labelPlaces,
  pageSizes,
  plainGrids,
} from './sheet/label-sheet.js';
