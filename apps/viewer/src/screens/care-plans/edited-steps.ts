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
