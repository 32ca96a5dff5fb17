import type { FirstSteps } from '../../api/founders.js';

export type Step = 'line' | 'founders' | 'pair';

/** What of the first steps is done; a spawn without parents only says that founders are sibs. */
export const stepsDone = (found: FirstSteps): Readonly<Record<Step, boolean>> => ({
  line: found.lines.length > 0,
  founders: found.fishList.edges.length > 0,
  pair:
    found.pairings.length > 0 ||
    found.spawnList.edges.some(({ node }) => node.sire !== null || node.dam !== null),
});

/** The first step that is not done; null once all are. */
export const nextStep = (found: FirstSteps): Step | null => {
  const done = stepsDone(found);
  return (['line', 'founders', 'pair'] as const).find((step) => !done[step]) ?? null;
};
