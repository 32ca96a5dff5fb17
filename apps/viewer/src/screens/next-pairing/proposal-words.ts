import type { Proposal, ProposalChange, ProposedPair, StandingPairs } from '../../api/rounds.js';
import { plainNumber, plural, today } from '../../wording/figures.js';

/** Points below which nothing is lost. */
const NOTHING = 0.005;

/** Of two sets of pairs whose worth differs by no more than twice the error of the difference. */
export const WITHIN_ERROR =
  'That difference lies within its error: either choice may be the better one.';

const openWords = (toldApart: boolean): string => (toldApart ? '' : ` ${WITHIN_ERROR}`);

/** "Make these 2 pairs", "Make this further pair". */
export function makeWords({ pairs, standing }: Pick<Proposal, 'pairs' | 'standing'>): string {
  const further = standing === null ? '' : 'further ';
  return pairs.length === 1
    ? `Make this ${further}pair`
    : `Make these ${pairs.length} ${further}pairs`;
}

/** On which days the line makes pairs, where it says so. */
export function daysWords({ day, lastDay }: Pick<Proposal, 'day' | 'lastDay'>): string {
  const until = lastDay === null ? '' : ` until ${lastDay}`;
  if (day > today())
    return `Pairs from ${day}${until}: fish are judged for the first of these days.`;
  return until === '' ? '' : `Pairs${until}.`;
}

/** Why a pair is there, in words. */
export function needWords(
  { need, place }: Pick<ProposedPair, 'need' | 'place'>,
  possible: number,
  hasAims: boolean,
): string {
  if (need === 'WISH') return 'You asked for it, or for one of its fish.';
  if (!hasAims) return 'Its fish are little related to each other and to the others.';
  const rank = `Number ${place} of ${possible} by worth`;
  return need === 'WORTH'
    ? `${rank}: it is here for its worth.`
    : `${rank}: it is here because its fish are less related to the others.`;
}

/** What becomes of the set without a pair. */
export function withoutWords(change: ProposalChange, hasAims: boolean): string {
  const { lost, instead, toldApart } = change;
  const pairs = instead.map(({ sire, dam }) => `${sire.tag} by ${dam.tag}`).join(', ');
  if (!hasAims) return pairs === '' ? '' : `Without it: ${pairs}.`;
  const others = pairs === '' ? '' : ` The pairs would then be: ${pairs}.`;
  if (lost <= NOTHING) return `Without it nothing is lost.${others}`;
  return `Without it all pairs together lose ${plainNumber(lost)} points.${others}${openWords(toldApart)}`;
}

/** What all that was asked for costs. */
export function priceWords({ price, hasAims, problem }: Proposal): string {
  if (problem !== null) return '';
  if (price === null) return 'What this costs could not be worked out.';
  if (price.instead.length === 0) return 'This changes nothing: the same pairs were proposed.';
  const changed = `${plural(price.instead.length, 'pair')} changed.`;
  if (!hasAims) return changed;
  if (price.lost <= NOTHING) return `This costs next to nothing. ${changed}`;
  return `This costs ${plainNumber(price.lost)} points in all. ${changed}${openWords(price.toldApart)}`;
}

/** "2 pairs are planned already: 1 waits for its spawn, 1 has spawned." */
export function standingWords({
  waitingCount,
  spawnedCount,
}: Pick<StandingPairs, 'waitingCount' | 'spawnedCount'>): string {
  const all = plural(waitingCount + spawnedCount, 'pair is', 'pairs are');
  const waits = `${waitingCount} ${waitingCount === 1 ? 'waits' : 'wait'} for a spawn`;
  const spawned =
    spawnedCount === 0 ? '' : `, ${spawnedCount} ${spawnedCount === 1 ? 'has' : 'have'} spawned`;
  return `${all} planned already: ${waits}${spawned}.`;
}
