import './drawings.css';

export { PedigreeDrawing } from './pedigree/pedigree-drawing.js';
export type { PedigreeDrawingProps, PedigreeFish, PlannedBrood } from './pedigree/types.js';
export { CareTimeline, type CareTimelineProps, type TimelineRow } from './charts/care-timeline.js';
export { ClassBars, type ClassBarsProps, type ExpectedClass } from './charts/class-bars.js';
export { GenotypeBar, type GenotypeBarProps, type GenotypeShare } from './charts/genotype-bar.js';
export {
  PunnettSquare,
  type GameteList,
  type PunnettSquareProps,
} from './charts/punnett-square.js';
export {
  GenerationPlot,
  type GenerationPlotProps,
  type GenerationPoint,
} from './charts/generation-plot.js';
export { FounderShares, type FounderSharesProps } from './charts/founder-shares.js';
export { RelationshipMap, type RelationshipMapProps } from './charts/relationship-map.js';
export type { MapFish } from './charts/map-fish.js';
export {
  SurvivalSteps,
  type SurvivalStage,
  type SurvivalStepsProps,
} from './charts/survival-steps.js';
export {
  SurvivalCurve,
  type CurveBandPoint,
  type CurveStep,
  type SurvivalCurveProps,
} from './charts/survival-curve.js';
export { WaterPlot, type WaterPlotProps, type WaterPoint } from './charts/water-plot.js';
export { RepeatDots, type RepeatDotsProps, type RepeatedDot } from './charts/repeat-dots.js';
export {
  ScorerDifferences,
  type ScorerDifferencesProps,
  type ScorerPair,
} from './charts/scorer-differences.js';
export {
  CorrelationScale,
  type CorrelationScaleProps,
  type DrawnCorrelation,
} from './charts/correlation-scale.js';
export {
  HeritabilityCurve,
  type HeritabilityCell,
  type HeritabilityCurveProps,
  type LikelyPoint,
} from './charts/heritability-curve.js';
export type { ChanceBand } from './charts/bands.js';
export { ValueAmongKin, type KinValue, type ValueAmongKinProps } from './charts/value-among-kin.js';
export { TraitTrend, type TraitTrendProps, type TrendGeneration } from './charts/trait-trend.js';
export {
  InbreedingCost,
  type CountedBrood,
  type InbreedingCostProps,
} from './charts/inbreeding-cost.js';
export type { FittedPoint } from './charts/inbreeding-plot.js';
export {
  InbreedingSize,
  type InbreedingSizeProps,
  type SizedBrood,
} from './charts/inbreeding-size.js';
export {
  RelativeShares,
  type RelativeShare,
  type RelativeSharesProps,
} from './charts/relative-shares.js';
export {
  WorthAgainstKinship,
  type WorthAgainstKinshipProps,
  type WorthAndKinship,
} from './charts/worth-kinship.js';
export {
  YoungCurve,
  type ScoreDensity,
  type ScoreSpread,
  type YoungCurveProps,
} from './charts/young-curve.js';
export { ForecastFan, type FanPoint, type ForecastFanProps } from './charts/forecast-fan.js';
export {
  OutcrossSteps,
  type OutcrossStep,
  type OutcrossStepsProps,
} from './charts/outcross-steps.js';
export { RouteChances, type RouteChance, type RouteChancesProps } from './charts/route-chances.js';
export {
  YoungWorths,
  type YoungWorth,
  type YoungWorthGroup,
  type YoungWorthsProps,
} from './charts/young-worths.js';
export { DrawnFish, type DrawnFishProps } from './fish/drawn-fish.js';
