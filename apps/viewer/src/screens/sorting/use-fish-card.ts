import { daysBetween } from '@linewright/care';
import { useEffect, useMemo, useState } from 'react';
import { dispositionWord, type Disposition } from '../../wording/words.js';
import { fitsAge, type BenchFish } from './bench-facts.js';
import { blank, isBlank, type Filled } from './bench-place.js';
import { reasonsFor, type Reason } from './reasons.js';
import { readScores } from './score-sheet.js';
import type { BenchPlaceKept } from './use-bench-place.js';
import { chosenSheet, isOnSheet, leftOnOtherSheet, scoredOn } from './sheet-look.js';
import type { BenchParts } from './bench-parts.js';

const firstUnsorted = (fish: readonly BenchFish[], from: number): number =>
  fish.findIndex((each, index) => index >= from && each.disposition === 'UNSORTED');

/** The next that is not sorted, after this one or else from the beginning; when all are, simply the next. */
export function nextUnsorted(all: readonly BenchFish[], index: number): number {
  const later = firstUnsorted(all, index + 1);
  if (later !== -1) return later;
  const before = firstUnsorted(all.slice(0, index), 0);
  return before === -1 ? Math.min(index + 1, all.length - 1) : before;
}

export interface FishCardsProps extends BenchParts {
  place: BenchPlaceKept;
  locusId: string | null;
  onLocus: (locusId: string) => void;
  /** As asked for in the address; `null`: the one made for the age. */
  sheetAsked: string | null;
  onSheet: (sheetId: string) => void;
}

/** The fish in hand: what it is scored on, what was filled in, and what can be done with it. */
export function useFishCard({
  bench,
  entries,
  on,
  say,
  locusId,
  sheetAsked,
  place,
}: FishCardsProps) {
  const { fish: all } = bench;
  const found = all.findIndex((each) => each.id === place.fishId);
  // Withdrawn elsewhere, or at the bench for the first time: the first that is not sorted.
  const index = Math.max(0, found === -1 ? firstUnsorted(all, 0) : found);
  const fish = all[index];
  const filled = fish === undefined ? blank : place.filledOf(fish.id);
  const [allTraits, setAllTraits] = useState(false);
  const fishId = fish?.id;
  useEffect(() => {
    if (fishId !== undefined) place.goTo(fishId);
    // The place follows the fish that is shown; `goTo` is the same throughout.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [fishId]);
  const age = fish == null || fish.hatchDate === null ? null : daysBetween(fish.hatchDate, on);
  const sheet = chosenSheet(bench.sheets, sheetAsked, age);
  const { typed, faultIds, note, reason, seen, culling } = filled;
  const isTyped = (traitId: string) => (typed.get(traitId)?.trim() ?? '') !== '';
  const sheetTraits = sheet?.current.lines.map((line) => line.trait) ?? [];
  // Typed before a sheet was chosen that does not ask for it: shown and entered all the same.
  const beside =
    sheet === null ? [] : bench.traits.filter(({ id }) => isTyped(id) && !isOnSheet(sheet, id));
  const traits = sheet === null ? bench.traits.filter((t) => allTraits || fitsAge(t, age)) : beside;
  const { values, slips } = readScores(
    sheet === null ? bench.traits : [...sheetTraits, ...beside],
    typed,
  );
  const scored = scoredOn(sheet, values, faultIds, note);
  const left = leftOnOtherSheet(bench.sheets, sheet, faultIds, note);
  const locus = bench.loci.find((each) => each.id === locusId);
  const reasons = useMemo(() => reasonsFor(bench, locus), [bench, locus]);
  const change = (next: (before: Filled) => Filled) => {
    if (fish !== undefined) place.fill(fish.id, next);
  };
  const fill = (given: Partial<Filled>) => change((before) => ({ ...before, ...given }));

  const goTo = (next: number) => {
    const target = all[Math.min(Math.max(next, 0), all.length - 1)];
    if (target === undefined) return;
    if (culling) fill({ culling: false });
    place.goTo(target.id);
  };

  /** Goes on at once; what the device could not keep is filled in again, at its fish. */
  const enter = (entering: Promise<boolean>, next: number) => {
    if (fish === undefined) return;
    const { id } = fish;
    place.fill(id, () => blank);
    goTo(next);
    void entering.then((entered) => {
      if (entered) return;
      place.fill(id, (now) => (isBlank(now) ? filled : now));
      place.goTo(id);
    });
  };

  /** Whether what is filled in can be entered; says why not. */
  const isReady = (): boolean => {
    if (slips.size > 0) {
      say([...slips.values()].join(' '));
      return false;
    }
    if (left !== null) {
      say(left);
      return false;
    }
    if (sheet === null || scored.look !== null || note.trim() === '') return true;
    fill({ noteAlone: true });
    return false;
  };

  const move = (step: number) => {
    if (fish === undefined || !isReady()) return;
    if (scored.look !== null || scored.plain.size > 0)
      enter(entries.score(fish, scored), index + step);
    else goTo(index + step);
    say(all[index + step]?.tag ?? 'No more fish in this direction');
  };

  const decide = (disposition: Disposition, why = reason, phenotype = seen) => {
    if (fish === undefined || !isReady()) return;
    const words = why.trim() === '' ? null : why.trim();
    if (disposition === 'CULLED' && words === null) {
      fill({ culling: true });
      say('Cull: choose a reason');
      return;
    }
    const counted = locusId === null || phenotype === null ? null : { locusId, phenotype };
    const next = nextUnsorted(all, index);
    say(
      `${fish.tag} ${dispositionWord[disposition]}. ${next === index ? '' : (all[next]?.tag ?? '')}`,
    );
    enter(entries.decide(fish, disposition, words, scored, counted), next);
  };

  const pick = (chosen: Reason) => {
    const phenotype = chosen.phenotype ?? seen;
    if (culling) decide('CULLED', chosen.words, phenotype);
    else fill({ reason: chosen.words, seen: phenotype });
  };

  const undo = async () => {
    const undone = await entries.undo();
    say(undone === null ? 'Nothing to undo' : `Undone: ${undone.label}`);
    const at = all.findIndex((each) => each.id === undone?.subject);
    if (at >= 0) goTo(at);
  };

  return {
    ...{ fish, index, count: all.length, age, locus, reasons, filled, fill },
    ...{ sheet, sheetTraits, left, traits, values, slips, showAllTraits: () => setAllTraits(true) },
    type: (traitId: string, text: string) =>
      change((before) => ({ ...before, typed: new Map(before.typed).set(traitId, text) })),
    toggleFault: (id: string) =>
      change((before) => {
        const now = new Set(before.faultIds);
        if (!now.delete(id)) now.add(id);
        return { ...before, faultIds: now, noteAlone: false };
      }),
    goToFish: (id: string) => {
      place.goTo(id);
      say(all.find((each) => each.id === id)?.tag ?? '');
    },
    ...{ move, decide, pick, undo },
  };
}

export type FishCard = ReturnType<typeof useFishCard>;
