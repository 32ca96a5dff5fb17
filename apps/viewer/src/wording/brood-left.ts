import { plural } from './figures.js';
import { stageWord, type Disposition } from './words.js';

export interface CountedBrood {
  readonly counts: readonly { stage: string; countedOn: string; number: number }[];
  readonly losses: readonly { on: string; number: number }[];
  readonly fish: readonly { disposition: Disposition; dispositionDate: string | null }[];
}

export interface BroodLeft {
  /** Fry without a record that can be left. */
  readonly left: number;
  /** How that comes about. */
  readonly words: string;
}

const gone: readonly Disposition[] = ['DIED', 'CULLED', 'PLACED', 'ELSEWHERE'];

/**
 * Fry that can still be there without a record: the last count, less what left since, less the fish that got records.
 * What left on the day of a count is taken to have left before it, as the survival curve does. `null` before any count.
 */
export function broodLeft({ counts, losses, fish }: CountedBrood): BroodLeft | null {
  const [last] = [...counts].sort(
    (a, b) => b.countedOn.localeCompare(a.countedOn) || a.number - b.number,
  );
  if (last === undefined) return null;
  const since = losses.filter((loss) => loss.on > last.countedOn);
  const lost = since.reduce((sum, loss) => sum + loss.number, 0);
  const goneSince = fish.filter(
    ({ disposition, dispositionDate }) =>
      gone.includes(disposition) && dispositionDate !== null && dispositionDate > last.countedOn,
  ).length;
  const here = fish.filter(({ disposition }) => !gone.includes(disposition)).length;
  const stage = stageWord[last.stage as keyof typeof stageWord] ?? last.stage;
  return {
    left: Math.max(0, last.number - lost - goneSince - here),
    words: [
      `${last.number} counted (${stage}, ${last.countedOn})`,
      lost + goneSince > 0 ? `minus ${lost + goneSince} lost, culled or placed since` : '',
      here > 0 ? `minus ${plural(here, 'fish', 'fish')} here with a record of their own` : '',
    ]
      .filter(Boolean)
      .join(', '),
  };
}

/** What is wrong with taking `number` fry out of the brood, and what to do; `null` when nothing is. */
export function tooMany(counted: CountedBrood, number: number): string | null {
  const brood = broodLeft(counted);
  if (brood === null || !Number.isFinite(number) || number <= brood.left) return null;
  return `${number} is more than can be left: ${plural(brood.left, 'fry', 'fry')} without a record (${brood.words}). Correct the number, or count the brood again on the page of the spawn. If the count was too low, record it anyway.`;
}
