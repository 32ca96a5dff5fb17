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
