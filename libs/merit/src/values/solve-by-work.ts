import { MeritError } from '../merit-error.js';
import type { Equations } from '../mixed/equations.js';
import { fitted, invertVariances, scoresOf, sumOfProducts, weighted } from '../mixed/fit.js';
import { iterate } from '../mixed/iterate.js';
import type { Variances } from '../mixed/mixed-model.js';
import type { AnimalModel } from './animal-model.js';
import {
  breedingValues,
  degreesOfFreedom,
  nothingLeft,
  solveAt,
  solveAtRatios,
  type BreedingValues,
  type SolvedModel,
} from './breeding-values.js';
import type { MeritNote } from './notes.js';
import { sampledErrorVariances, type SamplingOptions } from './sampled-errors.js';

/** Variances as they are, or ratios of each random variance to the residual's (one trait), whose scale is then estimated. */
export type GivenVariances =
  | { readonly variances: Variances }
  | { readonly ratios: readonly number[] };

export interface WorkOptions extends Omit<SamplingOptions, 'onDraw'> {
  /** Multiplications of a factorisation beyond which the equations are iterated. Default 5e9, some ten seconds. */
  readonly mostWork?: number;
  /** Numbers in a factor beyond which it is not made. Default 5e7, 400 MB. */
  readonly mostEntries?: number;
  /** Called as iteration goes on: return false to stop. */
  readonly onStep?: (done: number, all: number) => boolean;
}

/** Values by the way that was affordable. */
export interface ValuesByWork {
  readonly values: readonly BreedingValues[];
  readonly variances: Variances;
  /** `factor`: exact errors; `iteration`: errors from drawn scores. */
  readonly method: 'factor' | 'iteration';
  /** The solved model, for reasons, means and scores one more; null after iteration. */
  readonly solved: SolvedModel | null;
  readonly notes: readonly MeritNote[];
}

/**
 * Breeding values at given variances, with exact errors where the factor is affordable (told beforehand by its pattern), else by iteration with
 * errors from drawn scores, which a note says.
 *
 * @throws MeritError as {@link solveAt}, {@link solveAtRatios}, {@link iterate} and {@link sampledErrorVariances}.
 */
export function solveByWork(
  animal: AnimalModel,
  equations: Equations,
  given: GivenVariances,
  options: WorkOptions = {},
): ValuesByWork {
  const { mostWork = 5e9, mostEntries = 5e7 } = options;
  const symbolic = equations.affordable(mostEntries);
  if (symbolic !== null && symbolic.work <= mostWork) {
    const solved =
      'ratios' in given
        ? solveAtRatios(animal, equations, given.ratios)
        : solveAt(animal, equations, given.variances);
    const { variances } = solved;
    return { values: breedingValues(solved), variances, method: 'factor', solved, notes: [] };
  }
  return byIteration(animal, equations, given, options);
}

function byIteration(
  animal: AnimalModel,
  equations: Equations,
  given: GivenVariances,
  { draws = 60, seed = 1, onStep = () => true }: WorkOptions,
): ValuesByWork {
  const atOne: Variances =
    'ratios' in given
      ? { random: given.ratios.map((ratio) => [[ratio]]), residual: [[1]] }
      : given.variances;
  const { solution } = iterate(equations, atOne, { onStep: () => onStep(0, draws + 1) });
  const errors = sampledErrorVariances(animal, equations, atOne, {
    draws,
    seed,
    onDraw: (done) => onStep(done + 1, draws + 1),
  });
  const scale = 'ratios' in given ? scaleOf(equations, atOne, solution) : 1;
  const variances = {
    random: atOne.random.map((g) => g.map((row) => row.map((value) => scale * value))),
    residual: atOne.residual.map((row) => row.map((value) => scale * value)),
  };
  const values = breedingValues({
    animal,
    equations,
    variances,
    solution,
    errorVariances: errors.map((variance) => scale * variance),
  });
  return {
    values,
    variances,
    method: 'iteration',
    solved: null,
    notes: [
      {
        code: 'MERIT_BY_ITERATION',
        message: `This pedigree is too tangled for exact standard errors, so they were estimated from ${draws} drawn sets of scores: two of three are within ${Math.round(70 / Math.sqrt(draws))} %. The values themselves are exact.`,
      },
    ],
  };
}

/** Residual variance at given ratios: y'Py / (scores - rank). */
function scaleOf(equations: Equations, variances: Variances, solution: Float64Array): number {
  const free = degreesOfFreedom(equations);
  const [trait] = equations.model.traits;
  if (free < 1)
    throw new MeritError(
      'MERIT_TOO_FEW',
      `"${trait!.name}" has no more scores than fixed levels: score more fish, or use fewer levels.`,
    );
  const scores = scoresOf(equations);
  const expected = fitted(equations, solution);
  const residuals = scores.map((values, t) => values.map((y, row) => y - expected[t]![row]!));
  const weights = weighted(equations, invertVariances(equations, variances), scores);
  const scale = sumOfProducts(residuals, weights) / free;
  if (scale > 1e-12) return scale;
  throw nothingLeft(trait!.name);
}
