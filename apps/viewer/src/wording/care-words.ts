import { DAY, HOUR, hoursText } from '@linewright/care';
import type { CareReason } from '../api/care.js';
import { now } from '../clock/clock.js';
import { dayOf, happenedOn, showTime, today } from './figures.js';

const weekday = new Intl.DateTimeFormat('en', { weekday: 'short' });

export function clockText(iso: string): string {
  return showTime(iso).slice(11);
}

/** "today", "tomorrow", "yesterday", else "Fri 2026-03-13". */
export function dayText(day: string): string {
  const away = Math.round((Date.parse(day) - Date.parse(today())) / DAY);
  if (away === 0) return 'today';
  if (away === 1) return 'tomorrow';
  if (away === -1) return 'yesterday';
  return `${weekday.format(new Date(`${day}T12:00:00`))} ${day}`;
}

/** "today 14:05", "Fri 2026-03-13 08:00". */
export function whenText(iso: string): string {
  return `${dayText(dayOf(iso))} ${clockText(iso)}`;
}

/** When something was: only its day where nobody noted the hour. */
export function happenedText(happened: { at: string; dayOnly: boolean }): string {
  return happened.dayOnly ? dayText(happenedOn(happened)) : whenText(happened.at);
}

/** How late something is that should have been done by `to`. */
export function lateText(to: string): string {
  return hoursText((now().getTime() - Date.parse(to)) / HOUR);
}

/** What is waited for: "after “nest built”". */
export function afterWords(steps: readonly string[]): string {
  return `after ${steps.map((step) => `“${step}”`).join(' and ')}`;
}

const certaintyWord: Record<CareReason['certainty'], string> = {
  RECORDED: 'recorded',
  ESTIMATED: 'not recorded; estimated',
  EXPECTED: 'not happened yet; expected',
};

/** "48 h after spawned (recorded yesterday 07:30, 3 h later than expected)". */
export function reasonText(reason: CareReason): string {
  // Where only the day is known, half a day either way is no news.
  const news = reason.dayOnly ? 24 : 1;
  const moved =
    reason.moved === null || Math.abs(reason.moved) < news
      ? ''
      : `, ${hoursText(reason.moved)} ${reason.moved > 0 ? 'later' : 'sooner'} than expected`;
  const hour = reason.dayOnly ? ', hour not noted' : '';
  const after = reason.hours === 0 ? 'right after' : `${hoursText(reason.hours)} after`;
  return `${after} “${reason.afterTitle}” (${certaintyWord[reason.certainty]} ${happenedText(reason)}${hour}${moved})`;
}

/** Joins a day's date and a clock time typed into an input of type datetime-local to an instant. */
export function instantOf(local: string): string {
  return (local === '' ? now() : new Date(local)).toISOString();
}
