import { plural } from './figures.js';
import { partText } from './merit-words.js';
import type { EnumValues } from './words.js';

export interface ScoredCounts {
  readonly fish: number;
  readonly broods: number;
  readonly sires: number;
  readonly dams: number;
  readonly otherVersions: number;
  readonly ageNotKnown: number;
}

/** What is missing before anything can be said, and what to do; null when there is enough to begin with. */
export function missingText({ fish, broods }: ScoredCounts, name: string): string | null {
  if (fish === 0)
    return `No fish is scored on ${name} yet. Score a random dozen of a brood before you sort it, then a second brood with other parents.`;
  if (fish < 3)
    return `Only ${plural(fish, 'fish is', 'fish are')} scored on ${name}: too few to tell what is inherited. Score at least a dozen of each of two broods.`;
  if (broods < 2)
    return `All scored fish are of one brood, or of none. Sibs alone cannot show what is inherited: score a second brood with other parents, or the parents themselves.`;
  return null;
}

/** A step that would make the figures surer, and where to take it. */
export interface Advice {
  readonly text: string;
  readonly spawnId: string | null;
}

interface ScoredBrood {
  readonly spawnId: string;
  readonly tag: string;
  readonly sortedOn: string | null;
  readonly recorded: number;
  readonly scored: number;
  readonly drawn: number;
}

/** Fewer parents than this say little about a whole line. Of our own choosing. */
const FEW_PARENTS = 5;

export interface PlanEffect {
  readonly plan: EnumValues<'ScoringPlan'>;
  readonly scoresAdded: number;
  readonly heritabilityNow: number;
  readonly heritabilityThen: number;
}

const planWords: Record<PlanEffect['plan'], string> = {
  NEXT_FISH: 'The fish listed below, scored once each',
  ONE_BROOD: 'A random dozen of one new brood of other parents',
  FIVE_BROODS: 'A random dozen of each of five new broods of other parents',
};

/** What some scores more would narrow: two standard deviations either way, as now and as expected then. */
export const planText = (effect: PlanEffect): string =>
  `${planWords[effect.plan]} (${plural(effect.scoresAdded, 'score')} more): heritability known to ${partText(2 * effect.heritabilityThen)} either way, now ${partText(2 * effect.heritabilityNow)}.`;

/** What to score next: the surest gain first. */
export function adviceFor(counts: ScoredCounts, broods: readonly ScoredBrood[]): Advice[] {
  const advice = broods
    .filter((one) => one.sortedOn === null && one.drawn === 0 && one.recorded > one.scored)
    .map((one): Advice => ({
      text: `${one.tag} is not sorted yet: let chance choose a dozen of it, and score them first.`,
      spawnId: one.spawnId,
    }));
  const say = (text: string): void => void advice.push({ text, spawnId: null });
  if (counts.fish > 0 && Math.min(counts.sires, counts.dams) < FEW_PARENTS)
    say(
      `The scored fish come from ${plural(counts.sires, 'sire')} and ${plural(counts.dams, 'dam')}. Score broods of pairs that have none yet: a new pair says more than more young of the same one.`,
    );
  if (counts.ageNotKnown > 0)
    say(
      `${plural(counts.ageNotKnown, 'score')} of fish without a hatch date: they count as if scored at the mean age. Add the date where you know it.`,
    );
  if (counts.otherVersions > 0)
    say(
      `${plural(counts.otherVersions, 'score')} of earlier versions of this trait are not counted: the numbers meant something else.`,
    );
  return advice;
}

interface Selected {
  readonly scored: number;
  readonly scoredBeforeSorting: number;
  readonly culled: number;
  readonly culledForTrait: number;
}

/** What is known of how the scores were selected, in counts. */
export function selectionText({
  scored,
  scoredBeforeSorting,
  culled,
  culledForTrait,
}: Selected): string {
  const share = scored === 0 ? 0 : scoredBeforeSorting / scored;
  const culls =
    culled === 0
      ? 'No cull is recorded in these broods.'
      : `${plural(culled, 'cull')} recorded in these broods, ${culledForTrait === 0 ? 'none' : culledForTrait} with this trait as the reason.`;
  return `${scoredBeforeSorting} of ${scored} scored young were scored before sorting or chosen by chance (${partText(share)}). ${culls}`;
}

/** What is shown while figures are worked out anew, said beside how far that is; nothing where nothing is shown. */
export function untilThen({
  scoresTakenInSince,
  whyNotTakenIn,
}: {
  readonly scoresTakenInSince: number | null;
  readonly whyNotTakenIn: string | null;
}): { whileGoing: string; stoppedText: string } | null {
  const told = takenInText(scoresTakenInSince);
  if (told !== null)
    return { whileGoing: `Until then: ${told}`, stoppedText: `It was stopped. As shown: ${told}` };
  if (whyNotTakenIn === null) return null;
  const nothing = `Nothing is shown until then, since the values of before cannot be moved by the newest records. ${whyNotTakenIn}`;
  return { whileGoing: nothing, stoppedText: `It was stopped. ${nothing}` };
}

/** How far values go that come from the last solution. */
export const takenInText = (scores: number | null): string | null =>
  scores === null
    ? null
    : `values of fish hold the newest ${scores === 1 ? 'score' : `${scores} scores`} already; how much is inherited is as it was found before.`;
