import { studentTwoSided } from './distributions.js';
import { MeritError } from './merit-error.js';
import type { Interval } from './repeatability.js';

/** One score of one fish by one scorer. */
export interface ScoredOnce {
  readonly fish: string;
  readonly scorer: string;
  readonly value: number;
}

/** How far one scorer's figures stand above another's on the same fish. */
export interface ScorerDifference {
  readonly first: string;
  readonly second: string;
  /** Fish that both scored. */
  readonly fish: number;
  /** Mean of first minus second, in the trait's unit. */
  readonly difference: number;
  /** Standard deviation of the differences; `null` with one fish. */
  readonly deviation: number | null;
  /** Student's interval of the mean difference; `null` with one fish. */
  readonly interval: Interval | null;
}

const mean = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0) / values.length;

/** Mean of each scorer's scores of each fish, so that a scorer who looked twice does not count twice. */
const meansByScorer = (scores: readonly ScoredOnce[]): Map<string, Map<string, number>> => {
  const values = new Map<string, Map<string, number[]>>();
  for (const { fish, scorer, value } of scores) {
    if (!Number.isFinite(value))
      throw new MeritError(
        'MERIT_NOT_A_NUMBER',
        `"${value}" is not a number: correct or remove it.`,
      );
    const ofScorer = values.get(scorer) ?? new Map<string, number[]>();
    ofScorer.set(fish, [...(ofScorer.get(fish) ?? []), value]);
    values.set(scorer, ofScorer);
  }
  return new Map(
    [...values].map(([scorer, fish]) => [
      scorer,
      new Map([...fish].map(([id, list]) => [id, mean(list)])),
    ]),
  );
};

const differenceOf = (
  first: string,
  second: string,
  differences: readonly number[],
  certainty: number,
): ScorerDifference => {
  const n = differences.length;
  const difference = mean(differences);
  if (n < 2) return { first, second, fish: n, difference, deviation: null, interval: null };
  const squares = differences.reduce((total, d) => total + (d - difference) ** 2, 0);
  const deviation = Math.sqrt(squares / (n - 1));
  const reach = (studentTwoSided(certainty, n - 1) * deviation) / Math.sqrt(n);
  return {
    first,
    second,
    fish: n,
    difference,
    deviation,
    interval: { low: difference - reach, high: difference + reach },
  };
};

/**
 * Differences between scorers, pair by pair, on the fish that both scored: mean of the paired differences d with
 * Student's interval d ± t(n − 1) · s_d / √n (Student 1908, Biometrika 6:1-25). Every pair of scorers with a fish in
 * common appears once, names in order of the alphabet; no correction is made for looking at many pairs.
 *
 * Assumes differences nearly normal and fish chosen without regard to the score. Ordered grades are taken as numbers.
 *
 * @throws MeritError MERIT_NOT_A_NUMBER, MERIT_OUT_OF_RANGE.
 * @returns most fish in common first; cost: scores + pairs of scorers × fish.
 * @example scorerDifferences([{ fish: 'a', scorer: 'Ann', value: 5 }, { fish: 'a', scorer: 'Bo', value: 4 }])
 */
export const scorerDifferences = (
  scores: readonly ScoredOnce[],
  certainty = 0.95,
): ScorerDifference[] => {
  const means = meansByScorer(scores);
  const scorers = [...means.keys()].sort();
  const found: ScorerDifference[] = [];
  scorers.forEach((first, k) => {
    for (const second of scorers.slice(k + 1)) {
      const ofSecond = means.get(second);
      const differences = [...(means.get(first) ?? [])].flatMap(([fish, value]) => {
        const other = ofSecond?.get(fish);
        return other === undefined ? [] : [value - other];
      });
      if (differences.length > 0) found.push(differenceOf(first, second, differences, certainty));
    }
  });
  return found.sort((a, b) => b.fish - a.fish);
};
