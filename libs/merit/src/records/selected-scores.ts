import { MeritError } from '../merit-error.js';
import { selectionIntensity } from '../response/selection.js';
import type { MeritNote } from '../values/notes.js';

/** When a fish was first scored for the trait, seen from the sorting of its brood. */
export type ScoredWhen = 'before any cull' | 'after a cull' | 'not known';

/** What is on record of one brood and one trait. */
export interface BroodOnRecord {
  /** Young that were there when the brood was first counted or sorted; null where nobody counted. */
  readonly counted: number | null;
  /** Culls of the brood, and those of them that gave this trait as their reason. */
  readonly culled: number;
  readonly culledForTrait: number;
  /** Fish with a score of the trait: one score each (the mean of its looks), and when it was first taken. */
  readonly scored: readonly { readonly score: number; readonly when: ScoredWhen }[];
}

/** How the scores of one brood came about. */
export interface BroodSelection {
  readonly scored: number;
  /** Part of the brood that was scored, 0 to 1; null where nobody counted. */
  readonly share: number | null;
  readonly beforeCull: number;
  readonly meanBeforeCull: number | null;
  readonly meanAfterCull: number | null;
  /** True when every score was taken after a cull, so that only keepers were scored. */
  readonly keepersOnly: boolean;
  /**
   * By how many standard deviations the mean of those scored may stand above the brood's, had those culled for the trait been its worst; 0
   * where there were none or some were scored before the cull.
   */
  readonly raisedByUpTo: number;
}

/** How selected the scores of a trait are. */
export interface SelectionOfScores {
  readonly broods: readonly BroodSelection[];
  readonly scored: number;
  readonly beforeCull: number;
  readonly afterCull: number;
  readonly notKnown: number;
  readonly keepersOnlyBroods: number;
  readonly culledForTrait: number;
  /** Scored part of all broods that were counted; null where none was. */
  readonly share: number | null;
  readonly notes: readonly MeritNote[];
}

/**
 * How the scores of a trait were chosen, counted from the records: a heritability and values from keepers alone are wrong in ways that no band
 * tells. Broods without a score are left out.
 *
 * The rise of a mean by culling the worst is the intensity of selection (Falconer & Mackay 1996, chapter 11) and an upper bound: nobody culls
 * without error.
 * @throws MeritError MERIT_OUT_OF_RANGE for counts that cannot be. Cost: linear.
 */
export function selectionOfScores(
  trait: string,
  records: readonly BroodOnRecord[],
): SelectionOfScores {
  const scoredBroods = records.filter((record) => {
    expectCounts(record);
    return record.scored.length > 0;
  });
  const broods = scoredBroods.map(selectionOfBrood);
  const count = (when: ScoredWhen): number =>
    scoredBroods.reduce(
      (sum, { scored }) => sum + scored.filter((one) => one.when === when).length,
      0,
    );
  const counted = scoredBroods.filter((record) => record.counted !== null);
  const all = counted.reduce((sum, record) => sum + record.counted!, 0);
  const ofCounted = counted.reduce((sum, { scored }) => sum + scored.length, 0);
  const found = {
    broods,
    scored: broods.reduce((sum, { scored }) => sum + scored, 0),
    beforeCull: count('before any cull'),
    afterCull: count('after a cull'),
    notKnown: count('not known'),
    keepersOnlyBroods: broods.filter(({ keepersOnly }) => keepersOnly).length,
    culledForTrait: scoredBroods.reduce((sum, record) => sum + record.culledForTrait, 0),
    share: all > 0 ? ofCounted / all : null,
  };
  return { ...found, notes: notesOn(trait, found, scoredBroods.length - counted.length) };
}

function selectionOfBrood({
  counted,
  culled,
  culledForTrait,
  scored,
}: BroodOnRecord): BroodSelection {
  const mean = (of: ScoredWhen): number | null => {
    const scores = scored.filter(({ when }) => when === of).map(({ score }) => score);
    return scores.length === 0 ? null : scores.reduce((sum, s) => sum + s, 0) / scores.length;
  };
  const beforeCull = scored.filter(({ when }) => when === 'before any cull').length;
  const keepersOnly = scored.every(({ when }) => when === 'after a cull');
  const kept = counted === null || counted === 0 ? null : (counted - culledForTrait) / counted;
  const isCut = keepersOnly && culled > 0 && kept !== null && kept > 0 && kept < 1;
  return {
    scored: scored.length,
    share: counted === null || counted === 0 ? null : scored.length / counted,
    beforeCull,
    meanBeforeCull: mean('before any cull'),
    meanAfterCull: mean('after a cull'),
    keepersOnly,
    raisedByUpTo: isCut ? selectionIntensity(kept) : 0,
  };
}

function notesOn(
  trait: string,
  found: Omit<SelectionOfScores, 'notes'>,
  uncounted: number,
): MeritNote[] {
  const { broods, scored, afterCull, notKnown, keepersOnlyBroods, culledForTrait, share } = found;
  if (scored === 0) return [];
  const notes: MeritNote[] = [];
  const add = (code: MeritNote['code'], message: string) => notes.push({ code, message });
  if (keepersOnlyBroods > 0)
    add(
      'MERIT_KEEPERS_ONLY',
      `${keepersOnlyBroods} of ${broods.length} broods were scored for "${trait}" after sorting only: those scores are of keepers, and heritability and values come out wrong. A random dozen of each brood, scored before sorting, is worth more than fifty keepers.`,
    );
  else if (afterCull > 0)
    add(
      'MERIT_SCORED_AFTER_CULL',
      `${afterCull} of ${scored} fish were scored for "${trait}" after their brood had been sorted. Each brood has others that were scored before.`,
    );
  if (culledForTrait > 0) {
    const raised = Math.max(0, ...broods.map(({ raisedByUpTo }) => raisedByUpTo));
    const how =
      raised > 0
        ? ` Had those been the worst of their broods, the mean of what is left would stand up to ${raised.toFixed(1)} standard deviations too high.`
        : '';
    add(
      'MERIT_CULLED_FOR_TRAIT',
      `${culledForTrait} fish were culled because of "${trait}".${how}`,
    );
  }
  if (share !== null && share < 0.5)
    add(
      'MERIT_FEW_OF_BROOD',
      `${Math.round(100 * share)} % of the young counted were scored for "${trait}". That is enough if they were drawn at random, and misleading if they were picked.`,
    );
  if (uncounted > 0)
    add(
      'MERIT_BROOD_NOT_COUNTED',
      `${uncounted} of ${broods.length} broods were not counted, so nobody can tell what part of them was scored.`,
    );
  if (notKnown > 0)
    add(
      'MERIT_WHEN_NOT_KNOWN',
      `For ${notKnown} of ${scored} fish it is not known whether they were scored for "${trait}" before their brood was sorted.`,
    );
  return notes;
}

function expectCounts({ counted, culled, culledForTrait, scored }: BroodOnRecord): void {
  const whole = [counted ?? 0, culled, culledForTrait];
  if (whole.some((count) => !(Number.isInteger(count) && count >= 0)))
    throw new MeritError('MERIT_OUT_OF_RANGE', 'Counts of a brood are whole numbers from 0.', {
      counted,
      culled,
      culledForTrait,
    });
  if (culledForTrait > culled)
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `${culledForTrait} culls for the trait are more than all ${culled} culls of the brood.`,
      { culled, culledForTrait },
    );
  const most = Math.max(scored.length, culled);
  if (counted === null || counted >= most) return;
  throw new MeritError(
    'MERIT_OUT_OF_RANGE',
    `The brood was counted as ${counted}, but ${most} of it were scored or culled: correct the count, or give none.`,
    { counted, scored: scored.length, culled },
  );
}
