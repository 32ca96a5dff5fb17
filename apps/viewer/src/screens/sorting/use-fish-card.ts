import { daysBetween } from '@linewright/care';
import { useEffect, useMemo, useState } from 'react';
import type { Disposition } from '../../wording/words.js';
import type { BenchFish } from './bench-facts.js';
import type { BenchParts } from './bench-parts.js';
import { blank, type Filled } from './bench-place.js';
import * as acts from './card-acts.js';
import { cardScoring } from './card-scoring.js';
import { reasonsFor, type Reason } from './reasons.js';
import { chosenSheet } from './sheet-look.js';
import type { BroodRead } from './keeping-lines.js';
import type { BenchPlaceKept } from './use-bench-place.js';

export interface FishCardsProps extends BenchParts {
  place: BenchPlaceKept;
  keeping: BroodRead;
  locusId: string | null;
  onLocus: (locusId: string) => void;
  /** As asked for in the address; `null`: the one made for the age. */
  sheetAsked: string | null;
  onSheet: (sheetId: string) => void;
}

function useFishInHand(all: readonly BenchFish[], place: BenchPlaceKept) {
  const found = all.findIndex((each) => each.id === place.fishId);
  // Withdrawn elsewhere, or at the bench for the first time: the first that is not sorted.
  const index = Math.max(0, found === -1 ? acts.firstUnsorted(all, 0) : found);
  const fish = all[index];
  const fishId = fish?.id;
  useEffect(() => {
    if (fishId !== undefined) place.goTo(fishId);
    // The place follows the fish that is shown; `goTo` is the same throughout.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [fishId]);
  return { fish, index, filled: fish === undefined ? blank : place.filledOf(fish.id) };
}

/** The fish in hand: what it is scored on, what was filled in, and what can be done with it. */
export function useFishCard(props: FishCardsProps) {
  const { bench, on, locusId, place } = props;
  const { fish: all } = bench;
  const { fish, index, filled } = useFishInHand(all, place);
  const [allTraits, setAllTraits] = useState(false);
  const age = fish == null || fish.hatchDate === null ? null : daysBetween(fish.hatchDate, on);
  const sheet = chosenSheet(bench.sheets, props.sheetAsked, age);
  const scoring = cardScoring(bench, sheet, filled, { age, allTraits });
  const locus = bench.loci.find((each) => each.id === locusId);
  const reasons = useMemo(() => reasonsFor(bench, locus), [bench, locus]);
  const { entries, say } = props;
  const hand: acts.CardInHand = {
    ...{ all, fish, index, filled, scoring, locusId, place, entries, say },
  };
  return {
    ...{ fish, index, count: all.length, age, locus, reasons, filled },
    ...scoring,
    showAllTraits: () => setAllTraits(true),
    fill: (given: Partial<Filled>) => acts.fill(hand, given),
    type: (traitId: string, text: string) => acts.typeScore(hand, traitId, text),
    toggleFault: (id: string) => acts.toggleFault(hand, id),
    goToFish: (id: string) => acts.goToFish(hand, id),
    move: (step: number) => acts.move(hand, step),
    decide: (disposition: Disposition) => acts.decide(hand, disposition),
    pick: (chosen: Reason) => acts.pick(hand, chosen),
    undo: () => acts.undo(hand),
  };
}

export type FishCard = ReturnType<typeof useFishCard>;
