import { MeritError } from '../merit-error.js';
import { maximise } from '../numeric/maximise.js';

/** Sibships of one size in which at least one is affected. */
export interface Sibships {
  readonly size: number;
  readonly sibships: number;
  readonly affected: number;
}

/** Share of affected young of parents found through them. */
export interface SegregationRatio {
  readonly ratio: number;
  readonly standardError: number | null;
  /** Affected expected at `hypothesis`, given that each sibship has one at least. */
  readonly expected: number;
  readonly observed: number;
  readonly young: number;
  /** 2 ln of the likelihood at the estimate over that at the hypothesis; one degree of freedom. */
  readonly likelihoodRatio: number;
}

/**
 * Segregation ratio when only sibships with at least one affected were seen, and all of those (complete truncate ascertainment): each
 * counts by its chance given that (Fisher 1934).
 *
 * @throws MeritError MERIT_TOO_FEW, MERIT_OUT_OF_RANGE.
 */
export function segregationRatio(groups: readonly Sibships[], hypothesis = 0.25): SegregationRatio {
  if (groups.length === 0)
    throw new MeritError(
      'MERIT_TOO_FEW',
      'No sibship with an affected fish: count the young of such pairs.',
    );
  for (const { size, sibships, affected } of groups) {
    if (size >= 1 && sibships >= 0 && affected >= sibships && affected <= size * sibships) continue;
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `${affected} affected in ${sibships} sibships of ${size}: each has at least one and at most all of its young.`,
      { size, sibships, affected },
    );
  }
  const sum = (of: (group: Sibships) => number): number =>
    groups.reduce((total, group) => total + of(group), 0);
  const log = (p: number): number =>
    sum(
      ({ size, sibships, affected }) =>
        affected * Math.log(p) +
        (size * sibships - affected) * Math.log1p(-p) -
        sibships * Math.log1p(-((1 - p) ** size)),
    );
  const top = maximise(([p]) => (p! > 0 && p! < 1 ? log(p!) : -Infinity), [hypothesis]);
  const [variance] = top.covariance() ?? [];
  return {
    ratio: top.at[0]!,
    standardError: variance === undefined ? null : Math.sqrt(variance),
    expected: sum(
      ({ size, sibships }) => (sibships * size * hypothesis) / (1 - (1 - hypothesis) ** size),
    ),
    observed: sum(({ affected }) => affected),
    young: sum(({ size, sibships }) => size * sibships),
    likelihoodRatio: 2 * (top.value - log(hypothesis)),
  };
}
