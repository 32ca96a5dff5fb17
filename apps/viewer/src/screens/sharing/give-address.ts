import { PARTS } from '../lines/grant-words.js';

export type Part = (typeof PARTS)[number];

/** What is chosen for a file that anyone may be given. */
export interface Chosen {
  readonly parts: readonly Part[];
  /** Ancestors outside of the line under their names. */
  readonly ancestors: boolean;
  readonly plans: boolean;
}

/** All that a line's file can hold, but for the care plan, which is one's own work, and prices, which go along where they are ticked alone. */
export const EVERYTHING: Chosen = {
  parts: PARTS.filter((part) => part !== 'prices'),
  ...{ ancestors: true, plans: false },
};

/** Whether it is the whole line, so that planned pairs and the care plan can go along. */
export const isWhole = ({ parts, ancestors }: Chosen): boolean =>
  ancestors && EVERYTHING.parts.every((part) => parts.includes(part));

/** Where a line's file is, made for a partner or with what was chosen for anyone. */
export function giveAddress(lineId: string, whom: string | null, chosen: Chosen): string {
  const path = `/export/line/${lineId}.zip`;
  if (whom !== null) return `${path}?for=${whom}`;
  const { parts, ancestors, plans } = chosen;
  if (isWhole(chosen)) {
    const prices = parts.includes('prices') ? '&prices=yes' : '';
    return `${path}?photos=yes&plans=${plans ? 'yes' : 'no'}${prices}`;
  }
  return `${path}?parts=${parts.join(',')}${ancestors ? '&ancestors=named' : ''}`;
}
