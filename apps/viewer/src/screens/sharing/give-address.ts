import { PARTS } from '../lines/grant-words.js';

export type Part = (typeof PARTS)[number];

/** What is chosen for a file that anyone may be given. */
export interface Chosen {
  readonly parts: readonly Part[];
  /** Ancestors outside of the line under their names. */
  readonly ancestors: boolean;
  readonly plans: boolean;
}

/** All that a line's file can hold, but for the care plan, which is one's own work. */
export const EVERYTHING: Chosen = { parts: PARTS, ancestors: true, plans: false };

/** Where a line's file is, made for a partner or with what was chosen for anyone. */
export function giveAddress(lineId: string, whom: string | null, chosen: Chosen): string {
  const path = `/export/line/${lineId}.zip`;
  if (whom !== null) return `${path}?for=${whom}`;
  const { parts, ancestors, plans } = chosen;
  const all = PARTS.every((part) => parts.includes(part)) && ancestors;
  if (all) return `${path}?photos=yes&plans=${plans ? 'yes' : 'no'}`;
  return `${path}?parts=${parts.join(',')}${ancestors ? '&ancestors=named' : ''}`;
}
