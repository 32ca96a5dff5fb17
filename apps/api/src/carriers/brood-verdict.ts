import {
  compareHypotheses,
  fryToTell,
  goodnessOfFit,
  HeredityError,
  type Hypothesis,
  type JointPosterior,
  type Locus,
} from '@linewright/heredity';
import { toFitResult } from '../shapes/heredity.mapper.js';
import type { PairShares } from './mixture.js';
import type { BroodLocusModel } from './outlook.model.js';
import { rivalsFor } from './rivals.js';

/** The counts held against what one possible pair gives; null where all young are alike. */
export const fitOf = (locus: Locus, pair: PairShares, observed: readonly number[]) => {
  const shown = locus.phenotypes.flatMap((_, p) =>
    (pair.shares[p] ?? 0) > 0 || (observed[p] ?? 0) > 0 ? [p] : [],
  );
  if (shown.length < 2) return null;
  return toFitResult(
    goodnessOfFit(
      shown.map((p) => observed[p] ?? 0),
      shown.map((p) => pair.shares[p] ?? 0),
      { labels: shown.map((p) => locus.phenotypes[p]?.name ?? '') },
    ),
  );
};

/** The rival explanations of a brood, and what they come to in a sentence. */
export const compareExplanations = (
  locus: Locus,
  observed: readonly number[],
  possible: readonly PairShares[],
  before: readonly JointPosterior[],
  looks: readonly string[],
): Pick<BroodLocusModel, 'rivals' | 'verdict' | 'fryToTell'> => {
  const { counts, hypotheses } = rivalsFor(locus, observed, possible, before, looks);
  const none = (verdict: string) => ({ rivals: [], fryToTell: null, verdict });
  const [likeliest] = possible;
  if (likeliest === undefined) return none('Nothing can be worked out about the parents.');
  if (counts.every((n) => n === 0)) return none('No young are counted.');
  if (counts.length < 2)
    return none('Only one appearance is possible and it was seen: there is nothing to explain.');
  if (hypotheses.length < 2) {
    const fit = fitOf(locus, likeliest, observed);
    return none(
      `What is on record leaves only one ratio, "${hypotheses[0]?.name ?? ''}": the pedigree settles it, and no more fry need be raised to tell.${
        fit !== null && fit.pValue < 0.05
          ? ' Yet the counts fit it poorly: look for a wrong parent, another way of scoring, or losses that hit one class.'
          : ''
      }`,
    );
  }
  const { ranked, verdict } = compareHypotheses(counts, hypotheses as Hypothesis[]);
  return {
    verdict,
    fryToTell: fryToTellOf(
      ranked.slice(0, 2).map((one) => hypotheses.find((each) => each.name === one.name)),
    ),
    rivals: ranked.map((one) => ({
      name: one.name,
      weight: one.weight,
      timesLessLikely: Number.isFinite(one.timesLessLikely) ? one.timesLessLikely : null,
      pValue: one.fit.pValue,
    })),
  };
};

/** Young that tell the two best explanations apart, with errors of 5 in 100; for two classes only. */
const fryToTellOf = (best: readonly (Hypothesis | undefined)[]): number | null => {
  const [first, second] = best.map((one) => {
    const shares = (one?.expected ?? []).map(Number);
    const sum = shares.reduce((a, b) => a + b, 0);
    return shares.length === 2 && sum > 0 ? (shares[0] ?? 0) / sum : null;
  });
  if (first == null || second == null || first === second) return null;
  try {
    return fryToTell(first, second).fry;
  } catch (error) {
    // Too close to be told apart by any practical number.
    if (error instanceof HeredityError) return null;
    throw error;
  }
};
