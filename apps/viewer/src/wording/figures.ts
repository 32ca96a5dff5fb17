import { dayIn, daysBetween } from '@linewright/care';
import { now, zoneHere } from '../clock/clock.js';

/** F or coancestry as a percentage with two decimals: 0.2656 -> "26.56 %". */
export function percent(value: number, decimals = 2): string {
  return `${(value * 100).toFixed(decimals)} %`;
}

/** A plain number with the digits it needs and no more. */
export function plainNumber(value: number, decimals = 2): string {
  return String(Number(value.toFixed(decimals)));
}

export function today(): string {
  return dayOf(now().getTime());
}

/** The day of an instant where this device stands: an evening in Los Angeles is already the next day in UTC. */
export function dayOf(at: string | number): string {
  return dayIn(new Date(at).getTime(), zoneHere());
}

/** The day of something that happened; where nobody noted the hour, the hour stands for none, in UTC. */
export function happenedOn({ at, dayOnly }: { at: string; dayOnly: boolean }): string {
  return dayOnly ? at.slice(0, 10) : dayOf(at);
}

/** For an input of type datetime-local, in the clock of this device. */
export function toLocalTimeText(date: Date): string {
  const hours = String(date.getHours()).padStart(2, '0');
  return `${dayOf(date.getTime())}T${hours}:${String(date.getMinutes()).padStart(2, '0')}`;
}

export function showTime(iso: string): string {
  const date = new Date(iso);
  return Number.isNaN(date.getTime()) ? iso : toLocalTimeText(date).replace('T', ' ');
}

/** Days under two weeks, weeks under half a year, then months, then years and months. */
export function ageText(days: number): string {
  if (days < 0) return 'not hatched yet';
  if (days < 14) return `${days} d`;
  if (days < 183) return `${Math.floor(days / 7)} wk`;
  const months = Math.floor(days / 30.4375);
  if (months < 24) return `${months} mo`;
  const rest = months % 12;
  return rest === 0 ? `${Math.floor(months / 12)} y` : `${Math.floor(months / 12)} y ${rest} mo`;
}

export function ageToday(hatchDate: string | null): string | null {
  return hatchDate === null ? null : ageText(daysBetween(hatchDate, today()));
}

/** A range in words: "3 to 8"; one value where both ends read the same. */
export function span(from: string, to: string): string {
  return from === to ? from : `${from} to ${to}`;
}

export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count.toLocaleString('en')} ${count === 1 ? one : many}`;
}

/** Mean length of a month, days. */
export const MONTH_DAYS = 30.44;
