import { HOUR } from '../time-units.js';
import { type CarePlan, type CareWindow, type Instant, type PlannedStep } from './plan-shapes.js';

/** One time that something is to be done. */
export interface CareOccurrence extends CareWindow {
  readonly planned: PlannedStep;
  /** Stays the same while the step is moved about: `hatched.0`, `siphoned.12`. */
  readonly key: string;
  readonly state: 'due' | 'overdue' | 'upcoming';
}

const MOST_REPEATS = 400;

/**
 * What a plan asks for between two instants, soonest first: everything overdue and due, and what opens before `until`.
 * Later times of a repeated step follow its next one at its interval, until something that ends it is expected.
 *
 * Cost: steps + occurrences × log(occurrences).
 */
export const occurrences = (plan: CarePlan, until: Instant): readonly CareOccurrence[] => {
  const open = plan.steps.flatMap((planned) => {
    const { state, window } = planned;
    if (window === null || (state !== 'due' && state !== 'overdue' && state !== 'upcoming')) {
      return [];
    }
    return repeated(plan, planned, window, state, until);
  });
  return open
    .filter((one) => one.from <= until || one.state !== 'upcoming')
    .sort((a, b) => a.about - b.about || (a.key < b.key ? -1 : 1));
};

const repeated = (
  plan: CarePlan,
  planned: PlannedStep,
  window: CareWindow,
  state: CareOccurrence['state'],
  until: Instant,
): CareOccurrence[] => {
  const { step, index } = planned;
  const next: CareOccurrence = { planned, key: `${step.id}.${index}`, state, ...window };
  if (step.repeat === undefined) return [next];
  const every = step.repeat.everyHours * HOUR;
  const stop = Math.min(expectedEnd(plan, planned), periodEnd(planned), until);
  const list = [next];
  for (let k = 1; k <= MOST_REPEATS; k += 1) {
    const shift = k * every;
    if (window.about + shift > stop) break;
    list.push({
      planned,
      key: `${step.id}.${index + k}`,
      state: 'upcoming',
      from: window.from + shift,
      about: window.about + shift,
      to: window.to + shift,
    });
  }
  return list;
};

const expectedEnd = (plan: CarePlan, { step }: PlannedStep): Instant => {
  const ends = plan.steps
    .filter((other) => step.until?.includes(other.step.id) === true)
    .map((other) => other.window?.about ?? Infinity);
  return Math.min(Infinity, ...ends);
};

const periodEnd = ({ step, reasons }: PlannedStep): Instant => {
  const forHours = step.repeat?.forHours;
  if (forHours === undefined) return Infinity;
  return Math.max(...reasons.map((r) => r.at + r.hours * HOUR)) + forHours * HOUR;
};
