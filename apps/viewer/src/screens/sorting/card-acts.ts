import { dispositionWord, type Disposition } from '../../wording/words.js';
import type { BenchFish } from './bench-facts.js';
import type { BenchParts } from './bench-parts.js';
import { blank, isBlank, type Filled } from './bench-place.js';
import { isNoteAlone, type CardScoring } from './card-scoring.js';
import type { Reason } from './reasons.js';
import type { BenchPlaceKept } from './use-bench-place.js';

export const firstUnsorted = (fish: readonly BenchFish[], from: number): number =>
  fish.findIndex((each, index) => index >= from && each.disposition === 'UNSORTED');

/** The next that is not sorted, after this one or else from the beginning; when all are, simply the next. */
export function nextUnsorted(all: readonly BenchFish[], index: number): number {
  const later = firstUnsorted(all, index + 1);
  if (later !== -1) return later;
  const before = firstUnsorted(all.slice(0, index), 0);
  return before === -1 ? Math.min(index + 1, all.length - 1) : before;
}

/** The fish in hand, and all that an act of the person needs. */
export interface CardInHand {
  readonly all: readonly BenchFish[];
  /** `undefined`: the bench has none. */
  readonly fish: BenchFish | undefined;
  readonly index: number;
  readonly filled: Filled;
  readonly scoring: CardScoring;
  /** Counted while sorting. */
  readonly locusId: string | null;
  readonly place: Pick<BenchPlaceKept, 'goTo' | 'fill'>;
  readonly entries: Pick<BenchParts['entries'], 'decide' | 'score' | 'undo'>;
  readonly say: BenchParts['say'];
}

export function change({ fish, place }: CardInHand, next: (before: Filled) => Filled): void {
  if (fish !== undefined) place.fill(fish.id, next);
}

export const fill = (hand: CardInHand, given: Partial<Filled>): void =>
  change(hand, (before) => ({ ...before, ...given }));

function goTo(hand: CardInHand, next: number): void {
  const target = hand.all[Math.min(Math.max(next, 0), hand.all.length - 1)];
  if (target === undefined) return;
  if (hand.filled.culling) fill(hand, { culling: false });
  hand.place.goTo(target.id);
}

/** Goes on at once; what the device could not keep is filled in again, at its fish. */
function enter(hand: CardInHand, entering: Promise<boolean>, next: number): void {
  const { fish, filled, place } = hand;
  if (fish === undefined) return;
  const { id } = fish;
  place.fill(id, () => blank);
  goTo(hand, next);
  void entering.then((entered) => {
    if (entered) return;
    place.fill(id, (now) => (isBlank(now) ? filled : now));
    place.goTo(id);
  });
}

/** Whether what is filled in can be entered; says why not. */
function isReady(hand: CardInHand): boolean {
  const { scoring, filled, say } = hand;
  if (scoring.slips.size > 0) {
    say([...scoring.slips.values()].join(' '));
    return false;
  }
  if (scoring.left !== null) {
    say(scoring.left);
    return false;
  }
  if (!isNoteAlone(scoring, filled.note)) return true;
  fill(hand, { noteAlone: true });
  return false;
}

/** To the fish so many steps on; what was scored of this one is entered. */
export function move(hand: CardInHand, step: number): void {
  const { all, fish, index, scoring, entries } = hand;
  const { scored } = scoring;
  if (fish === undefined || !isReady(hand)) return;
  if (scored.look !== null || scored.plain.size > 0)
    enter(hand, entries.score(fish, scored), index + step);
  else goTo(hand, index + step);
  hand.say(all[index + step]?.tag ?? 'No more fish in this direction');
}

/** Decides on the fish and goes on to the next that is not sorted; a cull without a reason asks for it. */
export function decide(
  hand: CardInHand,
  disposition: Disposition,
  why = hand.filled.reason,
  phenotype = hand.filled.seen,
): void {
  const { all, fish, index, scoring, locusId, entries, say } = hand;
  if (fish === undefined || !isReady(hand)) return;
  const words = why.trim() === '' ? null : why.trim();
  if (disposition === 'CULLED' && words === null) {
    fill(hand, { culling: true });
    say('Cull: choose a reason');
    return;
  }
  const counted = locusId === null || phenotype === null ? null : { locusId, phenotype };
  const next = nextUnsorted(all, index);
  say(
    `${fish.tag} ${dispositionWord[disposition]}. ${next === index ? '' : (all[next]?.tag ?? '')}`,
  );
  enter(hand, entries.decide(fish, disposition, words, scoring.scored, counted), next);
}

/** A reason that was tapped: it culls where a cull waits for it, else it stands for the next decision. */
export function pick(hand: CardInHand, chosen: Reason): void {
  const phenotype = chosen.phenotype ?? hand.filled.seen;
  if (hand.filled.culling) decide(hand, 'CULLED', chosen.words, phenotype);
  else fill(hand, { reason: chosen.words, seen: phenotype });
}

export async function undo(hand: CardInHand): Promise<void> {
  const undone = await hand.entries.undo();
  hand.say(undone === null ? 'Nothing to undo' : `Undone: ${undone.label}`);
  const at = hand.all.findIndex((each) => each.id === undone?.subject);
  if (at >= 0) goTo(hand, at);
}

export function goToFish({ all, place, say }: CardInHand, id: string): void {
  place.goTo(id);
  say(all.find((each) => each.id === id)?.tag ?? '');
}

export const typeScore = (hand: CardInHand, traitId: string, text: string): void =>
  change(hand, (before) => ({ ...before, typed: new Map(before.typed).set(traitId, text) }));

export const toggleFault = (hand: CardInHand, id: string): void =>
  change(hand, (before) => {
    const now = new Set(before.faultIds);
    if (!now.delete(id)) now.add(id);
    return { ...before, faultIds: now, noteAlone: false };
  });
