import type { PairBasis, PairWorth } from '../api/judgement.js';
import { percent, plainNumber, plural } from './figures.js';

/** "+4.2" or "−1": points with their sign. */
export function pointsText(points: number): string {
  const shown = plainNumber(Math.abs(points), 1);
  if (shown === '0') return '0';
  return points < 0 ? `−${shown}` : `+${shown}`;
}

/** Points with what they may be off by. */
export const worthOf = (points: number, standardError: number): string =>
  standardError === 0
    ? pointsText(points)
    : `${pointsText(points)} ± ${plainNumber(standardError, 1)}`;

/** Worth of a pair with its standard error. */
export const worthText = ({ points, standardError }: PairWorth): string =>
  worthOf(points, standardError);

export const WORTH_MEANING =
  'Worth is told in your own points, for one young that you would keep: what the mean of the brood is worth against your line as it is now, what choosing the best of the brood by score adds (only what is passed on counts, not luck with a score), and what inbreeding takes. After ± stands its standard error, from what is not known of the two parents.';

/** Whether a pair can be told apart from the best of its list. */
export const likeBestText = (likeBest: boolean | null): string | null =>
  likeBest === true ? 'not told apart from the best' : null;

/** What orders the list, and what to do where nothing does. */
export function orderText({ lineId, version }: PairBasis): string {
  if (lineId === null)
    return 'Pairs stand in the order of F, the least related first: worth belongs to one line. Choose one line above. Each fish is judged by the ages and rests of its own line, a pair of two lines by the lower guide for F of both.';
  if (version === 0)
    return 'Pairs stand in the order of F, the least related first: nobody has said yet what this line is for.';
  return 'Pairs stand in the order of their worth for the line. Those that must not be paired now stand last.';
}

/** With how many young worth is reckoned, and where these figures come from. */
export function broodFiguresText(basis: PairBasis): string {
  const { keep, fry, survival, countedBroods, load } = basis;
  const source =
    countedBroods === 0
      ? 'guides of our own without a source, because fewer than three broods of the line were counted both when swimming and when sorted'
      : `from ${plural(countedBroods, 'counted brood')} of the line`;
  const lessened =
    load > 0
      ? ' Where the brood is inbred, the figures assume fewer, as your own broods show.'
      : '';
  return `The best ${keep} of a brood are kept, out of ${fry} swimming fry of which ${percent(survival, 0)} live to be sorted (${source}).${lessened}`;
}

/** How the ± was worked out. */
export const errorsText = ({ errorsTogether }: PairBasis): string =>
  errorsTogether
    ? 'What is not known of relatives goes together, and counts so in each ±.'
    : 'What is not known of each fish is taken by itself, because there are too many fish to work out how it goes together: the ± of a pair of relatives is too small.';

export function inbreedingCostText({ inbreedingCost, costBasis }: PairBasis): string {
  const cost = `Each 0.1 of F takes ${plainNumber(inbreedingCost, 2)} points off a young`;
  return costBasis === 'PERSON'
    ? `${cost}, as you said.`
    : `${cost}: a stated rate, 5.9 % of a standard deviation, the middle of 154 studies of farm animals (Doekes, Bijma & Windig 2021). No such figure is known for this fish.`;
}
