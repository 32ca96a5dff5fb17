import type { VariablesOf } from '../../api/graphql.js';
import { SAVE_CARE_TEMPLATE, type CareStep } from '../../api/care.js';
import { eventsInOrder, eventWord } from '../../wording/words.js';

type StepInput = VariablesOf<typeof SAVE_CARE_TEMPLATE>['input']['steps'][number];

/** A step as it is sent. */
export const stepInput = (step: CareStep): StepInput => ({
  id: step.id,
  title: step.title,
  kind: step.kind,
  after: step.after.map(({ after, hours, earliest, latest }) => ({
    after,
    hours,
    earliest,
    latest,
  })),
  everyHours: step.everyHours,
  forHours: step.forHours,
  eachTime: step.eachTime,
  until: step.until,
  onlyIf: step.onlyIf,
  lapseHours: step.lapseHours,
  why: step.why,
  basis: step.basis,
  citation: step.citation,
  conditions: step.conditions,
  caution: step.caution,
});

/** An empty step under a free name. */
export function newStep(steps: readonly CareStep[]): CareStep {
  const taken = new Set(steps.map((step) => step.id));
  let number = 1;
  while (taken.has(`own_${number}`)) number += 1;
  return {
    id: `own_${number}`,
    title: '',
    kind: 'DO',
    after: [],
    everyHours: null,
    forHours: null,
    eachTime: false,
    until: [],
    onlyIf: null,
    lapseHours: null,
    why: '',
    basis: 'OWN',
    citation: null,
    conditions: null,
    caution: null,
    event: false,
    published: [],
  };
}

/** What a step can follow: the steps of the plan, and events that it has no step for. */
export function anchorChoices(steps: readonly CareStep[]): { value: string; label: string }[] {
  const own = new Map(steps.map((step) => [step.id, step.title]));
  const events = eventsInOrder
    .map((kind) => ({ value: kind.toLowerCase(), label: eventWord[kind] }))
    .filter(({ value }) => !own.has(value) && !['note', 'failed'].includes(value));
  return [
    { value: 'decided', label: 'decided to pair' },
    ...[...own].map(([value, label]) => ({ value, label })),
    ...events,
  ];
}

const text = (value: number | null | undefined): string => (value == null ? '' : String(value));

/** A step as its form shows it, with room for two things that it comes after. */
export const typedStep = (step: CareStep) => ({
  title: step.title,
  kind: step.kind,
  after: Array.from({ length: Math.max(2, step.after.length) }, (_, i) => ({
    after: step.after[i]?.after ?? '',
    hours: text(step.after[i]?.hours),
    earliest: text(step.after[i]?.earliest),
    latest: text(step.after[i]?.latest),
  })),
  everyHours: text(step.everyHours),
  until: step.until[0] ?? '',
  lapseHours: text(step.lapseHours),
  why: step.why,
  caution: step.caution ?? '',
});

export interface StepValues extends Pick<
  CareStep,
  'title' | 'kind' | 'everyHours' | 'lapseHours' | 'caution'
> {
  after: readonly {
    after: string;
    hours: number | null;
    earliest: number | null;
    latest: number | null;
  }[];
  until: string;
  why: string | null;
}

/** The form shows one end of a repeat: while that is left alone, all the ends stay. */
function endsOf({ until }: CareStep, chosen: string): string[] {
  if (chosen === (until[0] ?? '')) return until;
  return chosen === '' ? [] : [chosen];
}

/** The step as it was typed; a time left blank is taken as the one it is about. What is changed is the person's own. */
export function changedStep(
  step: CareStep,
  values: StepValues,
  anchors: readonly { value: string; label: string }[],
): CareStep {
  const titleOf = (id: string) => anchors.find(({ value }) => value === id)?.label ?? id;
  return {
    ...step,
    title: values.title,
    kind: values.kind,
    after: values.after
      .filter(({ after }) => after !== '')
      .map(({ after, hours, earliest, latest }) => ({
        after,
        afterTitle: titleOf(after),
        hours: hours ?? 0,
        earliest: earliest ?? hours ?? 0,
        latest: latest ?? hours ?? 0,
      })),
    everyHours: values.everyHours,
    until: endsOf(step, values.until),
    lapseHours: values.lapseHours,
    why: values.why ?? '',
    caution: values.caution,
    basis: 'OWN',
    citation: null,
    conditions: null,
  };
}

/** The steps with this one in its place, or at the end when it is new. */
export const withStep = (steps: readonly CareStep[], step: CareStep): readonly CareStep[] =>
  steps.some(({ id }) => id === step.id)
    ? steps.map((each) => (each.id === step.id ? step : each))
    : [...steps, step];
