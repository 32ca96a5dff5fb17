import type { CareStep } from './template.js';

/** Times are milliseconds since 1970-01-01T00:00Z, as `Date.getTime` gives them; the library has no clock of its own. */
export type Instant = number;

/** Something recorded for a spawn: an event of its log, or a step of its care that was done or left out. */
export interface CareRecord {
  /** Records of one id are one record. */
  readonly id: string;
  /** Id of the step or event. One that nothing knows does no harm. */
  readonly step: string;
  readonly at: Instant;
  /** `done` when absent. */
  readonly action?: 'done' | 'skipped';
  /** True where only its day is known: `at` is then some hour of that day in UTC. False when absent. */
  readonly dayOnly?: boolean;
}

export type CareState = 'done' | 'skipped' | 'due' | 'overdue' | 'upcoming' | 'no-longer';

/** How well the time of an anchor is known: recorded; gone by unrecorded; or still to come. */
export type AnchorCertainty = 'recorded' | 'estimated' | 'expected';

/** One of the reasons why a step is due when it is. */
export interface CareReason {
  readonly after: string;
  readonly at: Instant;
  readonly certainty: AnchorCertainty;
  /** True where only the day of it is known: the hour of `at`, and so of the step, is then a guess. */
  readonly dayOnly: boolean;
  /** Hours after it at which the step is expected. */
  readonly hours: number;
  /** True for the one that decides: of several anchors the one that ends last. */
  readonly decides: boolean;
  /** Hours by which the anchor came later (+) or earlier (-) than was expected of it; `null` when
   * nothing was expected, or only after times that are guesses themselves. */
  readonly moved: number | null;
}

/** The window of a step: `from <= about <= to`. */
export interface CareWindow {
  readonly from: Instant;
  readonly about: Instant;
  readonly to: Instant;
}

/** Why a step is not asked for any more. */
export type NoLonger =
  /** The spawn failed or was closed. */
  | { readonly because: 'ended'; readonly by: string; readonly at: Instant }
  /** Something recorded shows that it is past: a later event, or one that ends it. */
  | { readonly because: 'past'; readonly by: string; readonly at: Instant }
  /** It would come too late to be of use. */
  | { readonly because: 'lapsed'; readonly at: Instant }
  /** It belongs to something that was not done. */
  | { readonly because: 'not-needed'; readonly without: string };

export interface PlannedStep {
  readonly step: CareStep;
  readonly state: CareState;
  /** `null` while nothing it follows has a time. For a step done, what was expected of it. */
  readonly window: CareWindow | null;
  readonly reasons: readonly CareReason[];
  /** Anchors that have not happened yet: the window is then only expected. */
  readonly waitsFor: readonly string[];
  readonly noLonger: NoLonger | null;
  /** What was recorded under it, in order of time. */
  readonly records: readonly CareRecord[];
  /** How often it was done or left out: number of the occurrence that `window` is of. */
  readonly index: number;
}

export interface CarePlan {
  /** In the template's order. */
  readonly steps: readonly PlannedStep[];
  readonly ended: { readonly by: string; readonly at: Instant } | null;
}
