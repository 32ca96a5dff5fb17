export { CareError, type CareErrorCode } from './care-error.js';
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
} from './timeline/check-template.js';
export type {
  AnchorCertainty,
  CareEntry,
  CarePlan,
  CareReason,
  CareState,
  CareWindow,
  NoLonger,
  PlannedStep,
} from './timeline/plan-shapes.js';
export { carePlan, type CarePlanInput } from './timeline/plan.js';
export { occurrences, type CareOccurrence } from './timeline/occurrences.js';
export { dayAfter, dayIn, startOfDay } from './timeline/zoned-days.js';
