import type { Bench, BenchSheet, BenchTrait } from './bench-facts.js';
import { fitsAge } from './bench-facts.js';
import type { Filled } from './bench-place.js';
import { readScores, type ReadScores, type ScoredTrait } from './score-sheet.js';
import { isOnSheet, leftOnOtherSheet, scoredOn, type Scored } from './sheet-look.js';

/** What a fish is scored on, and what was filled in so far. */
export interface CardScoring extends ReadScores {
  /** `null`: the plain list of traits. */
  readonly sheet: BenchSheet | null;
  readonly sheetTraits: readonly ScoredTrait[];
  /** Of the plain list; with a sheet, what was typed beside it. */
  readonly traits: readonly BenchTrait[];
  readonly scored: Scored;
  /** What is marked on a sheet that is not the chosen one, in words. */
  readonly left: string | null;
}

/** @param allTraits whether those for other ages are shown too */
export function cardScoring(
  bench: Pick<Bench, 'traits' | 'sheets'>,
  sheet: BenchSheet | null,
  { typed, faultIds, note }: Filled,
  { age, allTraits }: { age: number | null; allTraits: boolean },
): CardScoring {
  const isTyped = (traitId: string) => (typed.get(traitId)?.trim() ?? '') !== '';
  const sheetTraits = sheet?.current.lines.map((line) => line.trait) ?? [];
  // Typed before a sheet was chosen that does not ask for it: shown and entered all the same.
  const beside =
    sheet === null ? [] : bench.traits.filter(({ id }) => isTyped(id) && !isOnSheet(sheet, id));
  const { values, slips } = readScores(
    sheet === null ? bench.traits : [...sheetTraits, ...beside],
    typed,
  );
  return {
    ...{ sheet, sheetTraits, values, slips },
    traits: sheet === null ? bench.traits.filter((t) => allTraits || fitsAge(t, age)) : beside,
    scored: scoredOn(sheet, values, faultIds, note),
    left: leftOnOtherSheet(bench.sheets, sheet, faultIds, note),
  };
}

/** A note without a score or a fault, for which a sheet has no place. */
export const isNoteAlone = ({ sheet, scored }: CardScoring, note: string): boolean =>
  sheet !== null && scored.look === null && note.trim() !== '';
