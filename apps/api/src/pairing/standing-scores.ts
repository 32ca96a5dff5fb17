import type { TraitScore } from '@linewright/mating';
import { isStanding, type KnownScore } from '../stock/score.loader.js';

/** Scores that stand, by fish, as the mating lib takes them. */
export const standingScores = (
  scores: readonly KnownScore[],
): ReadonlyMap<string, readonly TraitScore[]> => {
  const byFish = new Map<string, TraitScore[]>();
  for (const score of scores.filter(isStanding)) {
    const { fishId, traitId, value, scoredOn, traitVersion, ageDays } = score;
    const one = { traitId, value, scoredOn, traitVersion, ...(ageDays !== null && { ageDays }) };
    const ofFish = byFish.get(fishId);
    if (ofFish === undefined) byFish.set(fishId, [one]);
    else ofFish.push(one);
  }
  return byFish;
};
