import type { CareReason } from '../api/care.js';
import { showTime, toDateText } from './figures.js';

const HOUR = 3_600_000;

/** The time zone of this device, as the API takes it. */
export const zoneHere = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** 0.5 -> "30 min", 30 -> "30 h", 72 -> "3 d", 100 -> "4 d 4 h". */
export function hoursText(hours: number): string {
  const whole = Math.abs(hours);
  if (whole < 1) return `${Math.round(whole * 60)} min`;
  if (whole < 48) return `${Number.isInteger(whole) ? whole : whole.toFixed(whole < 10 ? 1 : 0)} h`;
  const days = Math.floor(whole / 24);
  const rest = Math.round(whole - days * 24);
  if (rest === 24) return `${days + 1} d`;
  return rest === 0 || days >= 7 ? `${Math.round(whole / 24)} d` : `${days} d ${rest} h`;
}

const weekday = new Intl.DateTimeFormat('en', { weekday: 'short' });

export function clockText(iso: string): string {
  return showTime(iso).slice(11);
}

/** "today", "tomorrow", "yesterday", else "Fri 2026-03-13". */
export function dayText(day: string): string {
  const away = Math.round((Date.parse(day) - Date.parse(toDateText(new Date()))) / (24 * HOUR));
  if (away === 0) return 'today';
  if (away === 1) return 'tomorrow';
  if (away === -1) return 'yesterday';
  return `${weekday.format(new Date(`${day}T12:00:00`))} ${day}`;
}

/** "today 14:05", "Fri 2026-03-13 08:00". */
export function whenText(iso: string): string {
  return `${dayText(toDateText(new Date(iso)))} ${clockText(iso)}`;
}

/** How late something is that should have been done by `to`. */
export function lateText(to: string): string {
  return hoursText((Date.now() - Date.parse(to)) / HOUR);
}

const certaintyWord: Record<CareReason['certainty'], string> = {
  RECORDED: 'recorded',
  ESTIMATED: 'not recorded; estimated',
  EXPECTED: 'not happened yet; expected',
};

/** "48 h after spawned (recorded yesterday 07:30, 3 h later than expected)". */
export function reasonText(reason: CareReason): string {
  const moved =
    reason.moved === null || Math.abs(reason.moved) < 1
      ? ''
      : `, ${hoursText(reason.moved)} ${reason.moved > 0 ? 'later' : 'sooner'} than expected`;
  const after = reason.hours === 0 ? 'right after' : `${hoursText(reason.hours)} after`;
  return `${after} “${reason.afterTitle}” (${certaintyWord[reason.certainty]} ${whenText(reason.at)}${moved})`;
}

/** Joins a day's date and a clock time typed into an input of type datetime-local to an instant. */
export function instantOf(local: string): string {
  return (local === '' ? new Date() : new Date(local)).toISOString();
}
