import { DAY, HOUR, hoursText, occurrences, type CareOccurrence } from '@linewright/care';
import ical, { ICalCalendarMethod, ICalEventStatus } from 'ical-generator';
import { stepWords } from './care-log.js';
import type { SpawnPlan } from './care-plans.service.js';

const DAYS_AHEAD = 60;
/** Daily care so far ahead only: a calendar program asks again within the hour. */
const DAYS_OF_REPEATS = 10;
const REFRESH_SECONDS = 3_600;

const reasonText = (plan: SpawnPlan, one: CareOccurrence): string => {
  const reason = one.planned.reasons.find((each) => each.decides);
  if (reason === undefined) return '';
  const after = stepWords(plan.inUse.template, reason.after);
  const known =
    reason.certainty === 'recorded'
      ? ''
      : reason.certainty === 'estimated'
        ? ' (not recorded, estimated)'
        : ' (not happened yet: expected)';
  return reason.hours === 0
    ? `Right after "${after}"${known}.`
    : `${hoursText(reason.hours)} after "${after}"${known}.`;
};

const descriptionOf = (plan: SpawnPlan, one: CareOccurrence): string => {
  const { step } = one.planned;
  const basis =
    step.basis.kind === 'practice'
      ? 'Common practice, no source.'
      : step.basis.kind === 'published'
        ? `${step.basis.citation}; ${step.basis.conditions}.`
        : '';
  return [
    reasonText(plan, one),
    step.why,
    basis,
    step.caution === undefined ? '' : `Caution: ${step.caution}`,
  ]
    .filter((line) => line !== '')
    .join('\n');
};

/**
 * The tasks as a calendar in the open format (RFC 5545): one event a task, in UTC, so that every program shows it in the
 * clock of its own place. An event keeps its UID while its task is moved about, so a program moves it too.
 */
export const calendarFeed = (plans: readonly SpawnPlan[], now: Date): string => {
  const calendar = ical({
    name: 'Linewright',
    prodId: { company: 'linewright', product: 'care calendar', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
    ttl: REFRESH_SECONDS,
  });
  for (const plan of plans) {
    for (const one of occurrences(plan.plan, now.getTime() + DAYS_AHEAD * DAY)) {
      const repeated = one.planned.step.repeat !== undefined;
      if (repeated && one.from > now.getTime() + DAYS_OF_REPEATS * DAY) continue;
      const short = one.to - one.from <= 12 * HOUR && one.to > one.from;
      calendar.createEvent({
        id: `${plan.spawn.id}.${one.key}@linewright`,
        start: new Date(short ? one.from : one.about),
        end: new Date(short ? one.to : one.about + HOUR / 2),
        stamp: now,
        summary: `${plan.spawn.tag}: ${one.planned.step.title}`,
        description: descriptionOf(plan, one),
        status:
          one.planned.waitsFor.length > 0 ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED,
        categories: [{ name: one.state === 'overdue' ? 'overdue' : one.planned.step.kind }],
      });
    }
  }
  return calendar.toString();
};
