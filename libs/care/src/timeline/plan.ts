import { CareError } from '../care-error.js';
import { HOUR } from '../time-units.js';
import { anchorTimeOf, expectedOf, type AnchorTime, type Expected } from './anchors.js';
import { checkTemplate, inOrder } from './check-template.js';
import {
  type CareRecord,
  type CarePlan,
  type CareWindow,
  type Instant,
  type NoLonger,
  type PlannedStep,
} from './plan-shapes.js';
import { RecordBook } from './record-book.js';
import { type CareStep, type CareTemplate, isSpawnEvent } from './template.js';

export interface CarePlanInput {
  readonly template: CareTemplate;
  /** In any order; the same record twice counts once. */
  readonly records: readonly CareRecord[];
  readonly now: Instant;
}

/**
 * What is done, due, overdue, still to come and no longer called for in one spawn, and why.
 *
 * A step is expected after the events it follows: from their recorded times where they were recorded, so an early or late
 * event moves all that hangs on it; from where they were expected where a later event shows that they went by unrecorded; and
 * otherwise from where they are expected, which is never before `now`. A step is `due` or `overdue` only when all that it
 * follows has happened. A repeated step asks once, counted from the last time it was done.
 *
 * Times in milliseconds since 1970, offsets in hours. Cost: steps × timings + records × log(records).
 *
 * @throws CareError `CARE_BAD_TEMPLATE` with all problems in `data.problems`; `CARE_BAD_EVENT` for a time that is none.
 * @example
 * carePlan({ template: defaultTemplate, records: [{ id: '1', step: 'spawned', at }], now: at + 30 * HOUR })
 */
export const carePlan = ({ template, records, now }: CarePlanInput): CarePlan => {
  const problems = checkTemplate(template);
  if (problems.length > 0) {
    throw new CareError('CARE_BAD_TEMPLATE', problems.map((p) => p.message).join(' '), {
      problems,
    });
  }
  const book = new RecordBook(records);
  const order = inOrder(template.steps);
  const later = laterRecords(order, book);
  const times = new Map<string, AnchorTime | null>();
  const timeOf = (anchor: string): AnchorTime | null =>
    times.has(anchor) ? (times.get(anchor) ?? null) : eventTime(anchor, book);
  const planned = new Map<string, PlannedStep>();
  for (const step of order) {
    const expected = expectedOf(step, timeOf);
    const past = pastBy(step, book, later);
    const whole = step.eachTime === true ? eachTime(step, expected, book) : expected;
    const one = plannedStep(step, whole, past, book, now);
    planned.set(step.id, one);
    const gone = past?.at ?? skippedAt(step, book) ?? lapsedAt(one);
    times.set(step.id, anchorTimeOf(step, expected, gone, book, now));
  }
  return {
    steps: template.steps.flatMap((step) => planned.get(step.id) ?? []),
    ended: book.ended,
  };
};

const eventTime = (anchor: string, book: RecordBook): AnchorTime | null => {
  const record = isSpawnEvent(anchor) ? book.firstDone(anchor) : undefined;
  if (record === undefined) return null;
  const { at, dayOnly = false } = record;
  return { at, certainty: 'recorded', dayOnly, moved: null };
};

/** The earliest record of anything that happens once and follows the step, directly or through others. */
const laterRecords = (
  order: readonly CareStep[],
  book: RecordBook,
): ReadonlyMap<string, CareRecord> => {
  const later = new Map<string, CareRecord>();
  for (const step of [...order].reverse()) {
    // What is done daily may be done ahead of its time; only what happens once shows that the rest is past.
    if (step.repeat !== undefined || step.eachTime === true) continue;
    const shown = [book.firstDone(step.id), later.get(step.id)].filter((e) => e !== undefined);
    for (const record of shown) {
      for (const { after } of step.after) {
        const known = later.get(after);
        if (known === undefined || record.at < known.at) later.set(after, record);
      }
    }
  }
  return later;
};

/** What shows that a step is past. A repeated one is ended only by what it names: what follows it may be done meanwhile. */
const pastBy = (
  step: CareStep,
  book: RecordBook,
  later: ReadonlyMap<string, CareRecord>,
): CareRecord | undefined => {
  const ends = [book.firstOf(step.until ?? [])];
  if (step.repeat === undefined && step.eachTime !== true) ends.push(later.get(step.id));
  return ends.filter((record) => record !== undefined).sort((a, b) => a.at - b.at)[0];
};

const skippedAt = (step: CareStep, book: RecordBook): Instant | null =>
  book.of(step.id).find((record) => record.action === 'skipped')?.at ?? null;

const lapsedAt = (planned: PlannedStep): Instant | null =>
  planned.noLonger?.because === 'lapsed' ? (planned.window?.about ?? null) : null;

/** For what is due after every feed: the last feed is what counts, whichever of its anchors that was. */
const eachTime = (step: CareStep, expected: Expected, book: RecordBook): Expected => {
  const anchors = step.after.map((timing) => timing.after);
  const last = book.lastOf(anchors);
  const timing = step.after.find((each) => each.after === last?.step);
  if (last === undefined || timing === undefined) return { ...expected, window: null };
  return expectedOf({ ...step, after: [timing] }, () => ({
    at: last.at,
    certainty: 'recorded',
    dayOnly: last.dayOnly ?? false,
    moved: null,
  }));
};

const plannedStep = (
  step: CareStep,
  expected: Expected,
  past: CareRecord | undefined,
  book: RecordBook,
  now: Instant,
): PlannedStep => {
  const records = book.of(step.id);
  const base = { step, records, index: records.length, noLonger: null, ...expected };
  if (step.repeat === undefined && step.eachTime !== true) {
    const done = records.some((record) => record.action !== 'skipped');
    if (done) return { ...base, state: 'done' };
    if (records.length > 0) return { ...base, state: 'skipped' };
  }
  const gone = noLonger(step, past, book);
  if (gone !== null) return { ...base, state: 'no-longer', noLonger: gone };
  const next = step.repeat === undefined ? base : { ...base, ...nextTime(step, expected, records) };
  if (step.eachTime === true) return eachTimeState(next, expected, book, now);
  return openState(next, now);
};

const noLonger = (
  step: CareStep,
  past: CareRecord | undefined,
  book: RecordBook,
): NoLonger | null => {
  if (book.ended !== null) return { because: 'ended', ...book.ended };
  if (past !== undefined) return { because: 'past', by: past.step, at: past.at };
  if (step.onlyIf !== undefined && book.firstDone(step.onlyIf) === undefined) {
    return { because: 'not-needed', without: step.onlyIf };
  }
  return null;
};

/** The next time of a repeated step: from the last time it was done, but never before what it follows. */
const nextTime = (
  step: CareStep,
  expected: Expected,
  records: readonly CareRecord[],
): { readonly window: CareWindow | null } => {
  const first = expected.window;
  const last = records.at(-1);
  if (first === null || last === undefined) return { window: first };
  const floor = Math.max(...expected.reasons.map((reason) => reason.at));
  const every = (step.repeat?.everyHours ?? 0) * HOUR;
  const about = Math.max(last.at + every, floor);
  const from = Math.max(about - Math.min(first.about - first.from, every / 2), floor, last.at);
  return { window: { from, about, to: about + (first.to - first.about) } };
};

const openState = (planned: Omit<PlannedStep, 'state'>, now: Instant): PlannedStep => {
  const { step, window, waitsFor } = planned;
  if (window === null || waitsFor.length > 0) return { ...planned, state: 'upcoming' };
  const lapse = step.lapseHours;
  if (lapse !== undefined && now > window.to + lapse * HOUR) {
    const at = window.to + lapse * HOUR;
    return { ...planned, state: 'no-longer', noLonger: { because: 'lapsed', at } };
  }
  const { forHours } = step.repeat ?? {};
  const first = planned.reasons.reduce((t, r) => Math.max(t, r.at + r.hours * HOUR), -Infinity);
  if (forHours !== undefined && window.about > first + forHours * HOUR) {
    const at = first + forHours * HOUR;
    return { ...planned, state: 'no-longer', noLonger: { because: 'lapsed', at } };
  }
  if (now < window.from) return { ...planned, state: 'upcoming' };
  return { ...planned, state: now <= window.to ? 'due' : 'overdue' };
};

/** Done since the last feed, or too late for it: then it waits for the next. */
const eachTimeState = (
  planned: Omit<PlannedStep, 'state'>,
  expected: Expected,
  book: RecordBook,
  now: Instant,
): PlannedStep => {
  const anchors = planned.step.after.map((timing) => timing.after);
  const index = anchors.reduce((sum, anchor) => sum + book.done(anchor).length, 0);
  const counted = { ...planned, index };
  const waiting = { ...counted, window: null, reasons: [], waitsFor: anchors };
  if (expected.window === null) return { ...waiting, state: 'upcoming' };
  const since = expected.reasons[0]?.at ?? -Infinity;
  if (planned.records.some((record) => record.at >= since))
    return { ...waiting, state: 'upcoming' };
  const open = openState(counted, now);
  return open.state === 'no-longer' ? { ...waiting, state: 'upcoming' } : open;
};
