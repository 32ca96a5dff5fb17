import {
  earliestOf,
  isSpawnEvent,
  latestOf,
  type CareStep,
  type CareTemplate,
} from './template.js';

export type TemplateProblemCode =
  | 'NO_STEPS'
  | 'TOO_MANY_STEPS'
  | 'NO_NAME'
  | 'BAD_ID'
  | 'ID_TWICE'
  | 'NO_TITLE'
  | 'NO_START'
  | 'UNKNOWN_ANCHOR'
  | 'BAD_OFFSET'
  | 'BAD_REPEAT'
  | 'CYCLE';

export interface TemplateProblem {
  readonly code: TemplateProblemCode;
  /** The step at fault; `null` when it is the template itself. */
  readonly step: string | null;
  readonly message: string;
}

export const MOST_STEPS = 100;
/** Two years: longer than any spawn is raised. */
const MOST_HOURS = 2 * 365 * 24;

type Note = (code: TemplateProblemCode, message: string) => void;

/**
 * Everything that is wrong with a template, at once; empty when it can be used.
 *
 * Cost: linear in steps and timings.
 * @example checkTemplate(defaultTemplate) // []
 */
export const checkTemplate = (template: CareTemplate): readonly TemplateProblem[] => {
  const problems: TemplateProblem[] = [];
  const noteOn =
    (step: string | null): Note =>
    (code, message) =>
      problems.push({ code, step, message });
  if (template.name.trim() === '') noteOn(null)('NO_NAME', 'Give the template a name.');
  if (template.steps.length === 0) noteOn(null)('NO_STEPS', 'Give the template at least one step.');
  if (template.steps.length > MOST_STEPS) {
    noteOn(null)(
      'TOO_MANY_STEPS',
      `${template.steps.length} steps: a template holds at most ${MOST_STEPS}.`,
    );
  }
  const ids = new Set(template.steps.map((step) => step.id));
  const seen = new Set<string>();
  for (const step of template.steps) {
    const note = noteOn(step.id);
    checkNames(step, seen, note);
    checkAnchors(step, ids, note);
    checkHours(step, note);
  }
  for (const cycle of cyclesOf(template.steps)) {
    noteOn(cycle[0] ?? null)(
      'CYCLE',
      `These steps wait for one another: ${cycle.join(' → ')}. Let one of them follow something else.`,
    );
  }
  return problems;
};

const checkNames = (step: CareStep, seen: Set<string>, note: Note): void => {
  if (!/^[a-z][a-z0-9_]{0,39}$/.test(step.id)) {
    note(
      'BAD_ID',
      `"${step.id}" cannot name a step: give 1 to 40 small letters, digits or _, a letter first.`,
    );
  }
  if (step.id === 'failed' || step.id === 'decided') {
    note(
      'BAD_ID',
      `"${step.id}" is an event that no plan can ask for: give the step another name.`,
    );
  }
  if (seen.has(step.id)) note('ID_TWICE', `Two steps are named "${step.id}": rename one.`);
  seen.add(step.id);
  if (step.title.trim() === '') note('NO_TITLE', `Say what is done in step "${step.id}".`);
};

const checkAnchors = (step: CareStep, ids: ReadonlySet<string>, note: Note): void => {
  if (step.after.length === 0) {
    note('NO_START', `Step "${step.id}" follows nothing: name what it comes after.`);
  }
  const named = [
    ...step.after.map((timing) => timing.after),
    ...(step.until ?? []),
    ...(step.onlyIf === undefined ? [] : [step.onlyIf]),
  ];
  for (const anchor of new Set(named)) {
    if (ids.has(anchor) || isSpawnEvent(anchor)) continue;
    note(
      'UNKNOWN_ANCHOR',
      `Step "${step.id}" names "${anchor}", which is neither a step of this template nor an event of a spawn.`,
    );
  }
};

const within = (hours: number): boolean =>
  Number.isFinite(hours) && hours >= 0 && hours <= MOST_HOURS;

const checkHours = (step: CareStep, note: Note): void => {
  for (const timing of step.after) {
    const [earliest, latest] = [earliestOf(timing), latestOf(timing)];
    if (![earliest, timing.hours, latest].every(within)) {
      note(
        'BAD_OFFSET',
        `Step "${step.id}" is ${earliest} to ${latest} hours after "${timing.after}": give hours from 0 to ${MOST_HOURS}.`,
      );
    } else if (earliest > timing.hours || timing.hours > latest) {
      note(
        'BAD_OFFSET',
        `Step "${step.id}": earliest ${earliest}, about ${timing.hours}, latest ${latest} hours are out of order.`,
      );
    }
  }
  if (step.lapseHours !== undefined && !within(step.lapseHours)) {
    note('BAD_OFFSET', `Step "${step.id}" lapses after ${step.lapseHours} hours: give 0 or more.`);
  }
  if (step.repeat === undefined) return;
  const { everyHours, forHours } = step.repeat;
  if (!within(everyHours) || everyHours < 0.25) {
    note(
      'BAD_REPEAT',
      `Step "${step.id}" repeats every ${everyHours} hours: give a quarter of an hour or more.`,
    );
  }
  if (forHours !== undefined && !within(forHours)) {
    note('BAD_REPEAT', `Step "${step.id}" repeats for ${forHours} hours: give 0 or more.`);
  }
  if (step.eachTime === true) {
    note('BAD_REPEAT', `Step "${step.id}" is due each time and also repeats: choose one.`);
  }
};

/** Each cycle once, spelled out from one of its steps back to the same step. */
const cyclesOf = (steps: readonly CareStep[]): string[][] => {
  const byId = new Map(steps.map((step) => [step.id, step]));
  const state = new Map<string, 'open' | 'closed'>();
  const cycles: string[][] = [];
  const path: string[] = [];
  const visit = (id: string): void => {
    const step = byId.get(id);
    if (step === undefined || state.get(id) === 'closed') return;
    if (state.get(id) === 'open') {
      cycles.push([...path.slice(path.indexOf(id)), id]);
      return;
    }
    state.set(id, 'open');
    path.push(id);
    for (const timing of step.after) visit(timing.after);
    path.pop();
    state.set(id, 'closed');
  };
  for (const step of steps) visit(step.id);
  return cycles;
};

/** Steps of a sound template, each behind all that it follows. */
export const inOrder = (steps: readonly CareStep[]): readonly CareStep[] => {
  const byId = new Map(steps.map((step) => [step.id, step]));
  const placed = new Set<string>();
  const order: CareStep[] = [];
  const place = (step: CareStep): void => {
    if (placed.has(step.id)) return;
    placed.add(step.id);
    for (const timing of step.after) {
      const anchor = byId.get(timing.after);
      if (anchor !== undefined) place(anchor);
    }
    order.push(step);
  };
  steps.forEach(place);
  return order;
};
