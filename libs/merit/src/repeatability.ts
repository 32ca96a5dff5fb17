import { fQuantile, fUpperTail } from './distributions.js';
import { MeritError } from './merit-error.js';

/** An estimate with the bounds between which it lies with the certainty asked for. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** How well repeated scores of the same fish agree. */
export interface Repeatability {
  /** Intraclass correlation r: share of the variance of single scores that lies between fish. Below 0 is possible by chance. */
  readonly repeatability: number;
  readonly interval: Interval;
  /** True when fish were scored unequally often: the interval is then approximate. */
  readonly approximate: boolean;
  readonly fish: number;
  readonly scores: number;
  /** n₀: the number of scores a fish that counts for unequal groups. */
  readonly meanScores: number;
  readonly meanSquareBetween: number;
  readonly meanSquareWithin: number;
  readonly varianceBetween: number;
  readonly f: number;
  /** P of an F as large when fish do not differ at all. */
  readonly tail: number;
}

const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);

const expectGroups = (groups: readonly (readonly number[])[]): void => {
  for (const value of groups.flat()) {
    if (!Number.isFinite(value))
      throw new MeritError(
        'MERIT_NOT_A_NUMBER',
        `"${value}" is not a number: correct or remove it.`,
      );
  }
  const scores = groups.reduce((total, group) => total + group.length, 0);
  if (groups.length >= 2 && scores > groups.length && groups.every((g) => g.length > 0)) return;
  throw new MeritError(
    'MERIT_TOO_FEW',
    'Repeatability needs two fish or more, one of them scored twice or more.',
    { fish: groups.length, scores },
  );
};

/**
 * Repeatability of a trait: the intraclass correlation r = s²_A / (s² + s²_A) from a one-way analysis of variance with
 * fish as groups, where s² is the mean square within fish, s²_A = (MS_between − s²) / n₀ and, for unequal groups,
 * n₀ = (N − Σn²/N) / (a − 1).
 *
 * Sources: Sokal & Rohlf (1995) Biometry, 3rd ed., section 9.2; Lessells & Boag (1987) Auk 104:116-121, who warn that the
 * mean squares themselves must not be taken for variances. The interval is Searle's from the F distribution with n₀ in
 * the place of n, exact when every fish was scored equally often (Shrout & Fleiss 1979, Psychol. Bull. 86:420-428,
 * formula for one-way designs), approximate otherwise.
 *
 * Assumes that scores of one fish differ by chance alone: same trait version, taken close in time, in no order. The
 * scorers' own differences count as such chance here, so r falls when scorers disagree.
 *
 * @param groups the scores of each fish, in the trait's own unit, one array a fish.
 * @param certainty of the interval, 0.95 unless given.
 * @returns values with r at most 1; cost linear in the number of scores.
 * @throws MeritError MERIT_TOO_FEW, MERIT_NOT_A_NUMBER, MERIT_OUT_OF_RANGE.
 * @example repeatability([[1, 2], [5, 6]]).repeatability // 0.9394
 */
export const repeatability = (
  groups: readonly (readonly number[])[],
  certainty = 0.95,
): Repeatability => {
  expectGroups(groups);
  const a = groups.length;
  const sizes = groups.map((group) => group.length);
  const n = sum(sizes);
  const grand = sum(groups.map((group) => sum(group))) / n;
  const means = groups.map((group) => sum(group) / group.length);
  const between = sum(means.map((mean, k) => (sizes[k] ?? 0) * (mean - grand) ** 2));
  const within = sum(groups.map((group, k) => sum(group.map((v) => (v - (means[k] ?? 0)) ** 2))));
  const meanSquareBetween = between / (a - 1);
  const meanSquareWithin = within / (n - a);
  const meanScores = (n - sum(sizes.map((size) => size ** 2)) / n) / (a - 1);
  const varianceBetween = (meanSquareBetween - meanSquareWithin) / meanScores;
  const total = varianceBetween + meanSquareWithin;
  if (total === 0)
    throw new MeritError(
      'MERIT_TOO_FEW',
      'All scores are the same: nothing varies, so nothing can be compared.',
    );
  const f = meanSquareBetween / meanSquareWithin;
  const side = (1 + certainty) / 2;
  const bound = (ratio: number): number =>
    ratio === Infinity ? 1 : (ratio - 1) / (ratio + meanScores - 1);
  return {
    repeatability: varianceBetween / total,
    interval: {
      low: bound(f / fQuantile(side, a - 1, n - a)),
      high: bound(f * fQuantile(side, n - a, a - 1)),
    },
    approximate: new Set(sizes).size > 1,
    fish: a,
    scores: n,
    meanScores,
    meanSquareBetween,
    meanSquareWithin,
    varianceBetween,
    f,
    tail: f === Infinity ? 0 : fUpperTail(f, a - 1, n - a),
  };
};
