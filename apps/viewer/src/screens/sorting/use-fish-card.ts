import { daysBetween } from '@linewright/care';
import { useMemo, useState } from 'react';
import { dispositionWord, type Disposition } from '../../wording/words.js';
import { fitsAge, type BenchFish } from './bench-facts.js';
import { reasonsFor, type Reason } from './reasons.js';
import { readScores } from './score-sheet.js';
import { chosenSheet, isOnSheet, scoredOn } from './sheet-look.js';
import type { BenchParts } from './sorting-screen.js';

const firstUnsorted = (fish: readonly BenchFish[], from: number): number =>
  fish.findIndex((each, index) => index >= from && each.disposition === 'UNSORTED');

/** What is typed and tapped for one fish, until it is entered. */
interface Filled {
  readonly typed: ReadonlyMap<string, string>;
  readonly faultIds: ReadonlySet<string>;
  readonly note: string;
  readonly reason: string;
  /** Class at the counted locus. */
  readonly seen: string | null;
  readonly culling: boolean;
  /** A note was to be entered with neither a score nor a fault. */
  readonly noteAlone: boolean;
}

const blank: Filled = {
  typed: new Map(),
  faultIds: new Set(),
  note: '',
  reason: '',
  seen: null,
  culling: false,
  noteAlone: false,
};

export interface FishCardsProps extends BenchParts {
  locusId: string | null;
  onLocus: (locusId: string) => void;
  /** As asked for in the address; `null`: the one made for the age. */
  sheetAsked: string | null;
  onSheet: (sheetId: string) => void;
}

/** The fish in hand: what it is scored on, what was filled in, and what can be done with it. */
export function useFishCard({ bench, entries, on, say, locusId, sheetAsked }: FishCardsProps) {
  const { fish: all } = bench;
  const [currentId, setCurrentId] = useState(() => all[Math.max(0, firstUnsorted(all, 0))]?.id);
  const [filled, setFilled] = useState(blank);
  const [allTraits, setAllTraits] = useState(false);
  const found = all.findIndex((each) => each.id === currentId);
  const index = Math.max(0, found);
  const fish = all[index];
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
  const locus = bench.loci.find((each) => each.id === locusId);
  const reasons = useMemo(() => reasonsFor(bench, locus), [bench, locus]);
  const fill = (change: Partial<Filled>) => setFilled((before) => ({ ...before, ...change }));

  const goTo = (next: number) => {
    const target = all[Math.min(Math.max(next, 0), all.length - 1)];
    if (target === undefined) return;
    setCurrentId(target.id);
    setFilled(blank);
  };

  /** Whether what is filled in can be entered; says why not. */
  const isReady = (): boolean => {
    if (slips.size > 0) {
      say([...slips.values()].join(' '));
      return false;
    }
    if (sheet === null || scored.look !== null || note.trim() === '') return true;
    fill({ noteAlone: true });
    return false;
  };

  const move = (step: number) => {
    if (fish === undefined || !isReady()) return;
    if (scored.look !== null || scored.plain.size > 0) void entries.score(fish, scored);
    goTo(index + step);
    say(all[index + step]?.tag ?? 'No more fish this way');
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
    void entries.decide(fish, disposition, words, scored, counted);
    const later = firstUnsorted(all, index + 1);
    const next = later === -1 ? Math.min(index + 1, all.length - 1) : later;
    say(
      `${fish.tag} ${dispositionWord[disposition]}. ${next === index ? '' : (all[next]?.tag ?? '')}`,
    );
    goTo(next);
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
    ...{ sheet, sheetTraits, traits, values, slips, showAllTraits: () => setAllTraits(true) },
    type: (traitId: string, text: string) =>
      setFilled((before) => ({ ...before, typed: new Map(before.typed).set(traitId, text) })),
    toggleFault: (id: string) =>
      setFilled((before) => {
        const now = new Set(before.faultIds);
        if (!now.delete(id)) now.add(id);
        return { ...before, faultIds: now, noteAlone: false };
      }),
    ...{ move, decide, pick, undo },
  };
}

export type FishCard = ReturnType<typeof useFishCard>;
