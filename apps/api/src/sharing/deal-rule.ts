import type { KeptOut } from './share-planning.js';

const NOT_THEIRS = 'price of somebody else';

/** Who may say what of prices in a file. */
export interface DealVoices {
  /** Whose install signed the file, when it is paired with this one. */
  readonly sender: string | null;
  /** Whose install this is. */
  readonly here: string | null;
}

/**
 * Of a file, lets in only prices of its sender's own, and no change of what was on record here as another's; what else is kept out,
 * `whyOut` says. Of a sender whose install is not known here: those of anybody but whoever is here.
 */
export const dealsOf =
  ({ sender, here }: DealVoices, whyOut: KeptOut): KeptOut =>
  (item) => {
    if (item.kind.group !== 'fishDeals') return whyOut(item);
    const of = item.record['personId'];
    const known = item.local === null || item.local['personId'] === of;
    if (of === here || !known || (sender !== null && of !== sender)) return NOT_THEIRS;
    return whyOut(item);
  };
