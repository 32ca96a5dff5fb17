import type { TrendGeneration } from '../drawings/index.js';

export interface GenerationOfTrend {
  readonly generation: number;
  readonly fish: number;
  readonly scored: number;
  readonly meanScore: number | null;
  readonly meanScoreError: number | null;
  readonly meanValue: number;
  readonly meanValueError: number;
  readonly meanInbreeding: number;
  readonly meanKinship: number;
  readonly expectedResponse: number | null;
  readonly realisedResponse: number | null;
}

/** Normal quantile of 97.5 %: half a band of 95 % in standard errors. */
const HALF_BAND = 1.96;

const times = (value: number | null, factor: number): number | null =>
  value === null ? null : factor * value;

/**
 * Generations as they are drawn: errors as half bands of 95 %. Generations before the first scored one are left out: what their fish pass
 * on is told by the young alone.
 */
export function drawnGenerations(
  generations: readonly GenerationOfTrend[],
  factor: number,
): TrendGeneration[] {
  const first = generations.findIndex(({ scored }) => scored > 0);
  if (first < 0) return [];
  return generations.slice(first).map((each) => ({
    generation: each.generation,
    fish: each.fish,
    scored: each.scored,
    score:
      each.meanScore === null
        ? null
        : {
            mean: factor * each.meanScore,
            half: times(each.meanScoreError, factor * HALF_BAND),
          },
    value: { mean: factor * each.meanValue, half: factor * HALF_BAND * each.meanValueError },
    expected: times(each.expectedResponse, factor),
    came: times(each.realisedResponse, factor),
  }));
}
