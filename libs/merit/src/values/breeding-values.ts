import { MeritError } from '../merit-error.js';
import type { Equations } from '../mixed/equations.js';
import { Fit } from '../mixed/fit.js';
import type { Variances } from '../mixed/mixed-model.js';
import type { AnimalModel } from './animal-model.js';

/** Breeding values of all fish of a pedigree for one trait, in the trait's unit. */
export interface BreedingValues {
  readonly trait: string;
  readonly value: Float64Array;
  /** Square root of the prediction error variance. */
  readonly standardError: Float64Array;
  /** Correlation between true and estimated value, 0 to 1: sqrt(1 - PEV / (V_A (1 + F))). */
  readonly accuracy: Float64Array;
}

/** A model solved at one set of variances. */
export interface SolvedModel {
  readonly animal: AnimalModel;
  readonly equations: Equations;
  readonly variances: Variances;
  readonly solution: Float64Array;
  /** Variances of error of all solutions; fish whose additive variance is 0 have none. */
  readonly errorVariances: Float64Array;
  readonly logLikelihood: number;
  /** The factored equations, and by what their variances are multiplied to be those above. */
  readonly fit: Fit;
  readonly scale: number;
}

/**
 * Solves the model at given variances, with exact errors.
 *
 * @throws MeritError MERIT_NOT_DEFINITE.
 */
export function solveAt(
  animal: AnimalModel,
  equations: Equations,
  variances: Variances,
): SolvedModel {
  return solved(animal, new Fit(equations, variances), variances);
}

/** What a fit says of the model; `variances` with zeros where the fit stands at the edge. */
export function solved(animal: AnimalModel, fit: Fit, variances: Variances): SolvedModel {
  const { equations, solution, logLikelihood } = fit;
  return {
    animal,
    equations,
    variances,
    solution,
    errorVariances: fit.errorVariances(),
    logLikelihood,
    fit,
    scale: 1,
  };
}

/**
 * Solves a model of one trait at given ratios of each random variance to the residual's; the scale is estimated by REML at those
 * ratios: residual variance = y'Py / (scores - rank).
 *
 * @throws MeritError MERIT_TOO_FEW, MERIT_NO_VARIATION, MERIT_OUT_OF_RANGE.
 */
export function solveAtRatios(
  animal: AnimalModel,
  equations: Equations,
  ratios: readonly number[],
): SolvedModel {
  return withErrors(fitAtRatios(animal, equations, ratios));
}

/** A fit at given ratios, whose errors are not worked out yet. */
export type FitAtRatios = Omit<SolvedModel, 'errorVariances'>;

/** Adds the errors. Cost: the sparse inverse, about two factorisations. */
export const withErrors = (solved: FitAtRatios): SolvedModel => ({
  ...solved,
  errorVariances: solved.fit.errorVariances().map((variance) => solved.scale * variance),
});

/** As {@link solveAtRatios}, without errors. Cost: one factorisation. */
export function fitAtRatios(
  animal: AnimalModel,
  equations: Equations,
  ratios: readonly number[],
): FitAtRatios {
  if (ratios.some((ratio) => !(ratio > 0 && Number.isFinite(ratio))))
    throw new MeritError('MERIT_OUT_OF_RANGE', 'Each ratio of variances must lie above 0.', {
      ratios,
    });
  const fit = new Fit(equations, { random: ratios.map((ratio) => [[ratio]]), residual: [[1]] });
  const free = degreesOfFreedom(equations);
  const [{ name, values } = { name: '', values: new Float64Array(0) }] = equations.model.traits;
  if (free < 1) {
    throw new MeritError(
      'MERIT_TOO_FEW',
      `"${name}" has ${equations.scores} scores for ${equations.scores - free} fixed levels: none is left to tell how much scores vary. Score more fish, or use fewer levels.`,
      { trait: name, scores: equations.scores },
    );
  }
  const squares = values.reduce((sum, y) => sum + (Number.isNaN(y) ? 0 : y * y), 0);
  // Less than rounding leaves of numbers of this size.
  if (!(fit.quadratic > 1e-13 * squares)) throw nothingLeft(name);
  const scale = fit.quadratic / free;
  return {
    animal,
    equations,
    variances: { random: ratios.map((ratio) => [[scale * ratio]]), residual: [[scale]] },
    solution: fit.solution,
    logLikelihood: fit.logLikelihood - 0.5 * (free * Math.log(scale) + free - fit.quadratic),
    fit,
    scale,
  };
}

export const nothingLeft = (trait: string): MeritError =>
  new MeritError(
    'MERIT_NO_VARIATION',
    `Within the fixed levels all scores of "${trait}" are the same: nothing varies, so nothing can be estimated.`,
    { trait },
  );

/** Scores less the rank of the fixed part. */
export function degreesOfFreedom({ scores, design }: Equations): number {
  return scores - design.equations.length - design.groupsEstimated.flat().filter(Boolean).length;
}

/** Breeding values of a solved model, a trait after the other. */
export function breedingValues({
  animal: { inbreeding, pedigree },
  equations,
  variances,
  solution,
  errorVariances,
}: Pick<
  SolvedModel,
  'animal' | 'equations' | 'variances' | 'solution' | 'errorVariances'
>): BreedingValues[] {
  const { slots } = equations.model.random[0]!;
  return equations.model.traits.map(({ name }, trait) => {
    const slot = slots.findIndex((each) => each.trait === trait);
    const variance = variances.random[0]![slot]![slot]!;
    const value = new Float64Array(pedigree.size);
    const standardError = new Float64Array(pedigree.size);
    const accuracy = new Float64Array(pedigree.size);
    for (let i = 0; i < pedigree.size && variance > 0; i++) {
      const equation = equations.termEquation[0]![i * slots.length + slot]!;
      value[i] = solution[equation]!;
      standardError[i] = Math.sqrt(errorVariances[equation]!);
      // With groups the error holds that of the group as well, and may exceed the variance.
      const known = 1 - errorVariances[equation]! / (variance * (1 + inbreeding[i]!));
      accuracy[i] = Math.sqrt(Math.max(0, known));
    }
    return { trait: name, value, standardError, accuracy };
  });
}
