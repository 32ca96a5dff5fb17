import { hoursText } from '@linewright/care';
import type { CareStep } from '../../api/care.js';

type Timing = CareStep['after'][number];

/** "2 d after hatched (42 h to 54 h)". */
export function timingText({ afterTitle, hours, earliest, latest }: Timing): string {
  const about =
    hours === 0 ? `right after ${afterTitle}` : `${hoursText(hours)} after ${afterTitle}`;
  if (earliest === hours && latest === hours) return about;
  return `${about} (${hoursText(earliest)} to ${hoursText(latest)})`;
}

/** When a step is due, in one line. */
export function scheduleText(step: CareStep): string {
  const parts = [step.after.map(timingText).join(step.eachTime ? ', or ' : ', and ')];
  if (step.eachTime) parts.push('each time');
  if (step.everyHours !== null) parts.push(`then every ${hoursText(step.everyHours)}`);
  if (step.forHours !== null) parts.push(`for ${hoursText(step.forHours)}`);
  if (step.until.length > 0) parts.push(`until ${step.until.join(' or ').replaceAll('_', ' ')}`);
  if (step.onlyIf !== null) parts.push(`only with ${step.onlyIf.replaceAll('_', ' ')}`);
  return parts.join('; ');
}

export const stepKindWord: Record<CareStep['kind'], string> = {
  PREPARE: 'prepare',
  DO: 'do',
  OBSERVE: 'look',
  FEED: 'feed',
};
