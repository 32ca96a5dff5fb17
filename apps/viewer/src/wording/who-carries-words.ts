import { chanceText } from './chances.js';
import { plural } from './figures.js';

interface Counted {
  readonly inUse: number;
  readonly sure: number;
  readonly possible: number;
  readonly unlikely: number;
  readonly notKnown: number;
}

/** "Of 84 fish in use: 3 carry it (95 % or surer), 12 may, 9 hardly (below 5 %), 56 do not; of 4 nothing is known." */
export function countsText({ inUse, sure, possible, unlikely, notKnown }: Counted): string {
  const parts = [
    `${sure} carry it (95 % or surer)`,
    `${possible - sure - unlikely} may`,
    ...(unlikely === 0 ? [] : [`${unlikely} hardly (below 5 %)`]),
    `${inUse - possible - notKnown} do not`,
  ];
  const unknown =
    notKnown === 0 ? '' : `; of ${notKnown} nothing is known, from them or their relatives`;
  return `Of ${plural(inUse, 'fish', 'fish')} in use: ${parts.join(', ')}${unknown}.`;
}

/** How likely a fish is the last of its line with the allele; nothing where that is hardly so. */
export function onlyText(only: number | null, line: string | null): string | null {
  if (only === null || line === null || only < 0.05) return null;
  if (only >= 1 - 1e-9) return `the only one of ${line}`;
  return `the only one of ${line}? ${chanceText(only)}`;
}
