import {
  type CareOccurrence,
  type CarePlan,
  type CareReason,
  type CareStep,
  type CareTemplate,
  type CareTiming,
  figuresBeside,
  isSpawnEvent,
  type NoLonger,
  type PlannedStep,
} from '@linewright/care';
import type { SpawnModel } from '../shapes/spawn.model.js';
import { type LogRecord, stepWords } from './care-log.js';
import type { CareTemplateRow } from '../stock/rows/care.entity.js';
import type { CareStepInput, CareTimingInput } from './care.inputs.js';
import type {
  CareRecordModel,
  CarePlanModel,
  CareReasonModel,
  CareStepModel,
  CareTaskModel,
  CareTemplateModel,
  CareTimingModel,
  NoLongerModel,
  PlannedStepModel,
} from './care.model.js';

/** A calendar in use: the built-in one has no row. */
export interface TemplateInUse {
  readonly template: CareTemplate;
  readonly row: CareTemplateRow | null;
}

const toTiming = (template: CareTemplate, timing: CareTiming): CareTimingModel => ({
  after: timing.after,
  afterTitle: stepWords(template, timing.after),
  hours: timing.hours,
  earliest: timing.earliest ?? timing.hours,
  latest: timing.latest ?? timing.hours,
});

export const toStep = (template: CareTemplate, step: CareStep): CareStepModel => ({
  id: step.id,
  title: step.title,
  kind: step.kind,
  after: step.after.map((timing) => toTiming(template, timing)),
  everyHours: step.repeat?.everyHours ?? null,
  forHours: step.repeat?.forHours ?? null,
  eachTime: step.eachTime ?? false,
  until: [...(step.until ?? [])],
  onlyIf: step.onlyIf ?? null,
  lapseHours: step.lapseHours ?? null,
  why: step.why,
  basis: step.basis.kind,
  citation: step.basis.kind === 'published' ? step.basis.citation : null,
  conditions: step.basis.kind === 'published' ? step.basis.conditions : null,
  caution: step.caution ?? null,
  event: isSpawnEvent(step.id),
  published: figuresBeside(step.id).map((figure) => ({ ...figure })),
});

export const toTemplate = ({ template, row }: TemplateInUse): CareTemplateModel => ({
  id: row?.id ?? null,
  name: template.name,
  revision: row?.revision ?? 0,
  lineId: row?.lineId ?? null,
  steps: template.steps.map((step) => toStep(template, step)),
});

const toReason = (template: CareTemplate, reason: CareReason): CareReasonModel => ({
  ...reason,
  afterTitle: stepWords(template, reason.after),
  at: new Date(reason.at),
});

const toNoLonger = (template: CareTemplate, gone: NoLonger): NoLongerModel => {
  const by = 'by' in gone ? gone.by : 'without' in gone ? gone.without : null;
  return {
    because: gone.because,
    by: by === null ? null : stepWords(template, by),
    at: 'at' in gone ? new Date(gone.at) : null,
  };
};

const toCareRecord = (template: CareTemplate, record: LogRecord): CareRecordModel => ({
  id: record.id,
  step: record.step,
  title: stepWords(template, record.step),
  at: new Date(record.at),
  action: record.action ?? 'done',
  note: record.note,
  revision: record.revision,
  dayOnly: record.dayOnly ?? false,
  editable: record.editable,
});

const toPlanned = (
  template: CareTemplate,
  planned: PlannedStep,
  log: readonly LogRecord[],
): PlannedStepModel => ({
  step: toStep(template, planned.step),
  state: planned.state,
  from: planned.window === null ? null : new Date(planned.window.from),
  about: planned.window === null ? null : new Date(planned.window.about),
  to: planned.window === null ? null : new Date(planned.window.to),
  reasons: planned.reasons.map((reason) => toReason(template, reason)),
  waitsFor: planned.waitsFor.map((step) => stepWords(template, step)),
  noLonger: planned.noLonger === null ? null : toNoLonger(template, planned.noLonger),
  records: log
    .filter((record) => record.step === planned.step.id)
    .map((record) => toCareRecord(template, record)),
});

export const toPlan = (
  inUse: TemplateInUse,
  plan: CarePlan,
  log: readonly LogRecord[],
): CarePlanModel => ({
  template: toTemplate(inUse),
  steps: plan.steps.map((planned) => toPlanned(inUse.template, planned, log)),
  log: log.map((record) => toCareRecord(inUse.template, record)),
  endedBy: plan.ended === null ? null : stepWords(inUse.template, plan.ended.by),
  endedAt: plan.ended === null ? null : new Date(plan.ended.at),
});

export const toTask = (
  template: CareTemplate,
  spawn: SpawnModel,
  one: CareOccurrence,
  day: string,
): CareTaskModel => ({
  id: `${spawn.id}.${one.key}`,
  spawn,
  step: toStep(template, one.planned.step),
  state: one.state,
  day,
  from: new Date(one.from),
  about: new Date(one.about),
  to: new Date(one.to),
  reasons: one.planned.reasons.map((reason) => toReason(template, reason)),
  waitsFor: one.planned.waitsFor.map((step) => stepWords(template, step)),
});

const fromTiming = (timing: CareTimingInput): CareTiming => ({
  after: timing.after,
  hours: timing.hours,
  ...(timing.earliest != null && { earliest: timing.earliest }),
  ...(timing.latest != null && { latest: timing.latest }),
});

export const fromStep = (step: CareStepInput): CareStep => ({
  id: step.id,
  title: step.title.trim(),
  kind: step.kind,
  after: step.after.map(fromTiming),
  ...(step.everyHours != null && {
    repeat: {
      everyHours: step.everyHours,
      ...(step.forHours != null && { forHours: step.forHours }),
    },
  }),
  ...(step.eachTime === true && { eachTime: true }),
  ...(step.until != null && step.until.length > 0 && { until: step.until }),
  ...(step.onlyIf != null && { onlyIf: step.onlyIf }),
  ...(step.lapseHours != null && { lapseHours: step.lapseHours }),
  why: step.why?.trim() ?? '',
  basis:
    step.basis === 'published'
      ? { kind: 'published', citation: step.citation ?? '', conditions: step.conditions ?? '' }
      : { kind: step.basis },
  ...(step.caution != null && step.caution.trim() !== '' && { caution: step.caution.trim() }),
});
