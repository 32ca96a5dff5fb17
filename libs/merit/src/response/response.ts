import type { Pedigree } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';
import { meanBreedingValue } from '../values/reasons.js';
import type { SolvedModel } from '../values/breeding-values.js';

/** How a trait stands in one generation of a line. */
export interface GenerationOfTrait {
  readonly generation: number;
  readonly fish: number;
  readonly scored: number;
  /** Mean of the scores, by fish; null when none was scored. */
  readonly meanScore: number | null;
  readonly meanScoreError: number | null;
  readonly meanBreedingValue: number;
  readonly meanBreedingValueError: number;
  readonly meanInbreeding: number;
  /**
   * How far the parents of the next generation stood above their own generations' means, each counted by its scored young; null where
   * parents were not scored.
   */
  readonly selectionDifferential: number | null;
  /** Heritability times the differential of the generation before: what this one was expected to gain. */
  readonly expectedResponse: number | null;
  /** What its mean score did gain on the one before. */
  readonly realisedResponse: number | null;
}

export interface TraitResponse {
  readonly generations: readonly GenerationOfTrait[];
  /** Slope of the cumulated response on the cumulated differential, through 0 (Falconer & Mackay 1996, chapter 11). */
  readonly realisedHeritability: {
    readonly value: number;
    readonly standardError: number | null;
  } | null;
}

/**
 * Is the line moving? Means of scores and of breeding values by generation, and the realised response against the expected.
 *
 * Means of scores move with the seasons as well; means of breeding values do not, as far as the model knows the seasons. Bands of means
 * count that errors of relatives go together.
 *
 * @param generation of each fish of the pedigree, a whole number; -1 for fish outside the line.
 * @param score of each fish, the mean of its looks; `NaN` where not scored.
 * @param heritability for the expected response.
 * @throws MeritError MERIT_LENGTH_MISMATCH, MERIT_TOO_FEW. Cost: one solution by the factor a generation.
 */
export function responseByGeneration(
  solved: SolvedModel,
  generation: Int32Array,
  score: Float64Array,
  heritability: number,
): TraitResponse {
  const { pedigree, inbreeding } = solved.animal;
  if (generation.length !== pedigree.size || score.length !== pedigree.size)
    throw new MeritError(
      'MERIT_LENGTH_MISMATCH',
      'Give a generation and a score for each fish of the pedigree.',
    );
  const members = byGeneration(generation);
  if (members.size === 0)
    throw new MeritError('MERIT_TOO_FEW', 'No fish belongs to the line: choose one with fish.');
  const order = [...members.keys()].sort((a, b) => a - b);
  const meanOf = new Map(order.map((g) => [g, meanScore(members.get(g)!, score)]));
  const generations: GenerationOfTrait[] = [];
  for (const g of order) {
    const fish = members.get(g)!;
    const value = meanBreedingValue(solved, fish);
    const own = meanOf.get(g)!;
    const before = generations.at(-1);
    const differential = differentialOf(
      pedigree,
      members.get(g + 1) ?? [],
      generation,
      score,
      meanOf,
    );
    const expected =
      before?.selectionDifferential == null ? null : heritability * before.selectionDifferential;
    generations.push({
      generation: g,
      fish: fish.length,
      scored: own.count,
      meanScore: own.mean,
      meanScoreError: own.error,
      meanBreedingValue: value.value,
      meanBreedingValueError: value.standardError,
      meanInbreeding: fish.reduce((sum, i) => sum + inbreeding[i]!, 0) / fish.length,
      selectionDifferential: differential,
      expectedResponse: expected,
      realisedResponse:
        before?.meanScore == null || own.mean === null ? null : own.mean - before.meanScore,
    });
  }
  return { generations, realisedHeritability: realised(generations) };
}

function byGeneration(generation: Int32Array): Map<number, number[]> {
  const members = new Map<number, number[]>();
  generation.forEach((g, i) => {
    if (g < 0) return;
    const list = members.get(g);
    if (list === undefined) members.set(g, [i]);
    else list.push(i);
  });
  return members;
}

interface MeanScore {
  readonly count: number;
  readonly mean: number | null;
  readonly error: number | null;
}

function meanScore(fish: readonly number[], score: Float64Array): MeanScore {
  const scores = fish.map((i) => score[i]!).filter((value) => !Number.isNaN(value));
  const count = scores.length;
  if (count === 0) return { count, mean: null, error: null };
  const mean = scores.reduce((sum, value) => sum + value, 0) / count;
  const squares = scores.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { count, mean, error: count < 2 ? null : Math.sqrt(squares / (count - 1) / count) };
}

/** Each young counts half for its sire and half for its dam, so that parents count by their young. */
function differentialOf(
  { sire, dam }: Pedigree,
  young: readonly number[],
  generation: Int32Array,
  score: Float64Array,
  meanOf: ReadonlyMap<number, MeanScore>,
): number | null {
  let [sum, count] = [0, 0];
  for (const i of young) {
    if (Number.isNaN(score[i]!)) continue;
    for (const parent of [sire[i]!, dam[i]!]) {
      if (parent < 0 || Number.isNaN(score[parent]!)) continue;
      const mean = meanOf.get(generation[parent]!)?.mean;
      if (mean === null || mean === undefined) continue;
      sum += score[parent]! - mean;
      count++;
    }
  }
  return count === 0 ? null : sum / count;
}

function realised(
  generations: readonly GenerationOfTrait[],
): TraitResponse['realisedHeritability'] {
  let [differential, response] = [0, 0];
  const points: [number, number][] = [];
  for (let k = 1; k < generations.length; k++) {
    const before = generations[k - 1]!.selectionDifferential;
    const gained = generations[k]!.realisedResponse;
    if (before === null || gained === null) break;
    differential += before;
    response += gained;
    points.push([differential, response]);
  }
  const square = points.reduce((sum, [x]) => sum + x * x, 0);
  if (square === 0) return null;
  const value = points.reduce((sum, [x, y]) => sum + x * y, 0) / square;
  const left = points.reduce((sum, [x, y]) => sum + (y - value * x) ** 2, 0);
  const standardError = points.length < 2 ? null : Math.sqrt(left / (points.length - 1) / square);
  return { value, standardError };
}
