export { MatingError, type MatingErrorCode } from './mating-error.js';
export {
  percent,
  SEVERITIES,
  type Concern,
  type Figures,
  type Leaning,
  type OwnWarningCode,
  type PairingWarning,
  type Reason,
  type ReasonCode,
  type Severity,
} from './reason.js';
export {
  DEFAULT_SETTINGS,
  completeSettings,
  type AgeLimits,
  type PairingSettings,
  type PairingSettingsInput,
  type RestDays,
} from './settings.js';
export { planningEffect, standingWarnings, type PlanningEffect } from './fish-standing.js';
export { daysBetween } from './calendar.js';
export { readinessWarnings } from './fish-readiness.js';
export { INBREEDING_BANDS, inbreedingBand, type InbreedingBand } from './inbreeding-bands.js';
export type {
  BreedingValue,
  FishStanding,
  PairingCandidate,
  PastPairing,
  TraitScore,
  TraitWish,
} from './candidate.js';
export { wishLabel, type ClassWish } from './class-wishes.js';
export {
  RELATIONSHIP_TEXT,
  closeRelationship,
  type CloseRelationship,
} from './close-relationship.js';
export { commonAncestors, type CommonAncestor, type CommonAncestry } from './common-ancestors.js';
export { ancestryKnowledge, type AncestryKnowledge } from './ancestry-knowledge.js';
export type { MidParent, ParentTrait, TraitSpread } from './mid-parent.js';
export type { PairingFilter, PairingInput, PairingOrder } from './pairing-input.js';
export type { LeftOutCandidate } from './pairing-judge.js';
export { BAND_CAUTION, MID_PARENT_CAUTION } from './pairing-reasons.js';
export type { LocusShares, RankedPairing, WishOutcome } from './ranked-pairing.js';
export {
  broodOutlooks,
  explainPairing,
  judgePairings,
  passingOfPair,
  worthDifference,
  setsDifference,
  rankPairings,
  type BroodOutlook,
  type PairIds,
  type PairingExplanation,
  type PairingRanking,
  type RankingOptions,
  type WorthDifference,
} from './rank-pairings.js';
export type { WantedAnswer, WantedInPartner, WantedOutcome } from './wanted-in-partner.js';
export { suggestOutcrosses, type OutcrossInput, type OutcrossSuggestion } from './outcrosses.js';
export type { OutcrossFacts } from './outcross/outcross-facts.js';
export { type FirstCross, type InbreedingRange } from './outcross/line-figures.js';
export { OUTCROSS_CAUTIONS, OUTCROSS_SHARES } from './outcross-words.js';
export { assignCheapest, assignExhaustively, type Assignment } from './assignment.js';
export {
  allocatePairs,
  type AllocatedPair,
  type Allocation,
  type AllocationInput,
} from './minimum-coancestry.js';
export { lineWithYoung, type LineWithYoung } from './line-with-young.js';
export { projectRoute, type RouteInput, type RouteScheme, type RouteStep } from './routes.js';
export type { ContributionProblem } from './contributions/contribution-problem.js';
export {
  bestContributions,
  contributionFrontier,
  leastCoancestry,
  type Contributions,
  type FrontierPoint,
} from './contributions/best-contributions.js';
export {
  completePurpose,
  hasAims,
  STARTING_PURPOSE,
  type LinePurpose,
  type LinePurposeInput,
  type LookAim,
  type PairingRules,
  type TraitAim,
} from './purpose/line-purpose.js';
export { dayForPairs, isOutsideDays } from './purpose/days-for-pairs.js';
export { wantedAlleles, type WatchedAllele } from './purpose/wanted-alleles.js';
export { howManyToKeep, type BroodToKeep, type ToKeep } from './keeping/how-many.js';
export {
  chanceOfCarrying,
  type AlleleInLine,
  type CarriedAllele,
} from './keeping/carried-alleles.js';
export {
  LAST_CARRIER_FROM,
  whomToKeep,
  type BroodKeeping,
  type KeepingAdvice,
  type KeepingInput,
  type YoungToKeep,
} from './keeping/whom-to-keep.js';
export { PairChooser, type PairSet } from './pair-set/choose-pairs.js';
export { judgedPairs, type JudgedPairs } from './pair-set/judged-pairs.js';
export {
  proposePairs,
  type SetChange,
  type PairProposal,
  type ProposalQuestion,
  type ProposedPair,
} from './pair-set/propose-pairs.js';
export { setFigures, type SetFigures, type SetPair } from './pair-set/set-figures.js';
export type { PairProblem, PairWishes } from './pair-set/pair-problem.js';
export type { SearchOptions } from './pair-set/search.js';
export {
  fitAnswers,
  type Answer,
  type Expected,
  type FittedAnswers,
} from './purpose/fit-answers.js';
export {
  nextQuestion,
  worthsFromAnswers,
  type FishChoice,
  type Compared,
  type ComparedFish,
  type Question,
  type WorthAnswered,
  type WorthsAnswered,
} from './purpose/worth-from-answers.js';
export {
  expectedYoung,
  mendelianVariance,
  normalCurve,
  type CurvePoint,
  type ExpectedYoung,
  type ParentValue,
  type TraitVariation,
} from './young/expected-young.js';
export {
  chanceOfPassing,
  chanceWithin,
  fryToRaise,
  meanShare,
  MOST_FRY,
  passingShares,
  type PossibleShare,
  type TraitStandard,
} from './young/passing.js';
export { bestOfBrood } from './worth/best-of-brood.js';
export { expectedPoints, type Points } from './worth/expected-points.js';
export { LookShares } from './worth/look-shares.js';
export { inbreedingCost, STATED_LOSS, type InbreedingCost } from './worth/inbreeding-cost.js';
export type {
  ErrorsTogether,
  LookOfPair,
  PassingOfPair,
  TraitBasis,
  TraitOfPair,
  WorthBasis,
  WorthOfPair,
} from './worth/judged-worth.js';
export {
  PairWorths,
  type CandidateValues,
  type PairAt,
  type PairWorth,
  type WorthLook,
  type WorthStock,
  type WorthTrait,
} from './worth/pair-worths.js';
export { Draws } from './simulated/draws.js';
export type {
  BelievedLocus,
  BelievedTrait,
  DrawnGenotypes,
  JointGenotypes,
  LineBelief,
} from './simulated/line-belief.js';
export { outcomesOf } from './simulated/group-members.js';
export { beliefOfFish } from './simulated/belief-of-fish.js';
export { SimulatedLine, type SimulatedBrood } from './simulated/simulated-line.js';
export { FishJudge, passesAim, traitPoints } from './simulated/fish-judge.js';
export {
  backToParentRoute,
  outcrossRoute,
  SCHEMES,
  siblingRoute,
  twoSubLinesRoute,
  type ParentChoice,
  type PlannedBrood,
  type Route,
  type RouteLengths,
  type RouteStep as PlannedStep,
  type Scheme,
} from './schemes/route.js';
export { runRoute, type RouteCourse, type RouteGoal } from './schemes/run-route.js';
export { RouteTally, wilsonInterval, type RouteFigures } from './schemes/route-tally.js';
export { RouteSearch, type RouteSearchInput, type RouteStanding } from './schemes/route-search.js';
export {
  possibleRoutes,
  type PossibleRoutes,
  type PossibleRoutesInput,
} from './schemes/possible-routes.js';
export { plannedBroods, type PlanBrood, type PlanParent } from './plan/planned-broods.js';
export {
  ALLELE_FOUND_FROM,
  LATE_AFTER_DAYS,
  LEAST_YOUNG_LOOKED_AT,
  planCourse,
  type AdoptedPlan,
  type PlanCourse,
  type PlanEvents,
  type PlanProblem,
  type PlanSpawn,
  type PlanStep,
} from './plan/plan-course.js';
export { passesStandard, type SeenYoung } from './plan/passes-standard.js';
export { BANDS, fanOf, type Band, type Fan } from './forecast/bands.js';
export {
  Forecast,
  type AlleleForecast,
  type ForecastGeneration,
  type ForecastInput,
  type LineForecast,
} from './forecast/forecast.js';
export { LineCourse, type CourseSettings, type EstimatedValues } from './forecast/line-course.js';
export { RunningValues } from './forecast/running-values.js';
export {
  backToBest,
  bestByBest,
  byChance,
  fewBest,
  leastRelated,
  planned,
  type Choice as ChoiceOfStrategy,
  type Pair as ChosenPair,
  type Strategy,
} from './forecast/strategies.js';
export {
  chooseOutcrossFish,
  outcrossCourse,
  type OutcrossCourse,
  type OutcrossCourseInput,
  type OutcrossGeneration,
  type TraitReturn,
} from './outcross/outcross-course.js';
export type { AfterOutcross, OutcrossFish } from './outcross/outcross-fish.js';
export type { AlleleChances } from './outcross/outcross-alleles.js';
export {
  genotypesSeen,
  looksHidden,
  withDescribedFish,
  type DescribedFish,
} from './outcross/described-partner.js';
export { plannedWithOutcross } from './outcross/with-outcross.js';
export {
  whenToOutcross,
  type OutcrossAdvice,
  type OutcrossPoint,
  type OutcrossVerdict,
} from './outcross/when-to-outcross.js';
