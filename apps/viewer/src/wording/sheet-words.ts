import type { FaultSeverity } from '../api/score-sheets.js';
import { ageText, span } from './figures.js';

export const severityWord: Record<FaultSeverity, string> = {
  SLIGHT: 'slight',
  MINOR: 'minor',
  MAJOR: 'major',
  SEVERE: 'severe',
  DISQUALIFYING: 'disqualifying',
};

export const severitiesInOrder = Object.keys(severityWord) as FaultSeverity[];

/** Classes that take points; a disqualifying fault rules out instead. */
export const deductingSeverities = severitiesInOrder.filter((one) => one !== 'DISQUALIFYING');

/** "4 wk to 6 wk", "from 16 wk", "any age". */
export function windowText(from: number | null, to: number | null): string {
  if (from === null && to === null) return 'any age';
  if (to === null) return `from ${ageText(from ?? 0)}`;
  return from === null ? `up to ${ageText(to)}` : span(ageText(from), ageText(to));
}

/** A total out of 100 with one decimal: "81.3". */
export function pointsText(points: number): string {
  return (Math.round(points * 10) / 10).toFixed(1);
}
