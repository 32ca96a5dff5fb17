import { HOUR } from '../time-units.js';
import {
  type AnchorCertainty,
  type CareReason,
  type CareWindow,
  type Instant,
} from './plan-shapes.js';
import type { RecordBook } from './record-book.js';
import { earliestOf, latestOf, type CareStep } from './template.js';

export interface AnchorTime {
  readonly at: Instant;
  readonly certainty: AnchorCertainty;
  readonly dayOnly: boolean;
  readonly moved: number | null;
}

export interface Expected {
  readonly window: CareWindow | null;
  readonly reasons: readonly CareReason[];
  readonly waitsFor: readonly string[];
}

/** What a step follows, and so when it is expected: of several anchors the last one decides. */
export const expectedOf = (
  step: CareStep,
  timeOf: (anchor: string) => AnchorTime | null,
): Expected => {
  const found = step.after.map((timing) => ({ timing, time: timeOf(timing.after) }));
  const waitsFor = found
    .filter(({ time }) => time === null || time.certainty === 'expected')
    .map(({ timing }) => timing.after);
  const known = found.flatMap(({ timing, time }) => (time === null ? [] : [{ timing, time }]));
  // An anchor without any time leaves the step without one: half a reason would be a guess.
  const window =
    known.length < found.length || known.length === 0
      ? null
      : {
          from: Math.max(...known.map(({ timing, time }) => time.at + earliestOf(timing) * HOUR)),
          about: Math.max(...known.map(({ timing, time }) => time.at + timing.hours * HOUR)),
          to: Math.max(...known.map(({ timing, time }) => time.at + latestOf(timing) * HOUR)),
        };
  const deciding =
    window === null
      ? -1
      : known.findIndex(({ timing, time }) => time.at + timing.hours * HOUR === window.about);
  const reasons = known.map(({ timing, time }, i) => ({
    after: timing.after,
    at: time.at,
    certainty: time.certainty,
    dayOnly: time.dayOnly,
    hours: timing.hours,
    decides: i === deciding,
    moved: time.moved,
  }));
  return { window, reasons, waitsFor };
};

/**
 * When a step happened, as far as those that follow it are concerned: as recorded; else, when something recorded shows
 * that it is past, when it was expected but no later than that; else when it is expected, but not before now.
 */
export const anchorTimeOf = (
  step: CareStep,
  expected: Expected,
  past: Instant | null,
  book: RecordBook,
  now: Instant,
): AnchorTime | null => {
  const about = expected.window?.about ?? null;
  const recorded = book.firstDone(step.id);
  if (recorded !== undefined) {
    // What was expected after a time that is itself a guess, drawn from this very record, is no measure of it.
    const sure = expected.reasons.every((reason) => reason.certainty === 'recorded');
    const moved = about === null || !sure ? null : (recorded.at - about) / HOUR;
    const dayOnly = recorded.dayOnly ?? false;
    return { at: recorded.at, certainty: 'recorded', dayOnly, moved };
  }
  const floor = Math.max(...expected.reasons.map((reason) => reason.at), -Infinity);
  if (past !== null) {
    const at = Math.max(floor, Math.min(about ?? past, past));
    return { at, certainty: 'estimated', dayOnly: false, moved: null };
  }
  if (about === null) return null;
  return { at: Math.max(about, now), certainty: 'expected', dayOnly: false, moved: null };
};
