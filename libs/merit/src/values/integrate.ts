import { MeritError } from '../merit-error.js';
import { Equations } from '../mixed/equations.js';
import { animalModel, type AnimalScores } from './animal-model.js';
import { breedingValues, degreesOfFreedom, solveAtRatios } from './breeding-values.js';
import { Posterior, type GridPoint } from './posterior.js';
import { flatPrior, type HeritabilityPrior } from './prior.js';

export interface IntegrationOptions {
  readonly prior?: HeritabilityPrior;
  /** Cells of the grid over the heritability. Default 20. */
  readonly cells?: number;
  /** Cells over the share of each further random term in what is left. Default 5. */
  readonly cellsOfOthers?: number;
  /** Called after each point, for progress and for stopping: return false to stop. */
  readonly onPoint?: (done: number, all: number) => boolean;
}

/** Shares of the whole variance: of the breeding value, of each further term, of the residual. */
interface Shares {
  readonly heritability: number;
  readonly others: readonly number[];
  readonly residual: number;
}

/** Middles of cells: the heritability, then what each further term takes of the rest. */
export function shareGrid(others: number, cells: number, cellsOfOthers: number): Shares[] {
  const middles = (count: number): number[] =>
    Array.from({ length: count }, (_, k) => (k + 0.5) / count);
  let grid: Shares[] = middles(cells).map((heritability) => ({
    heritability,
    others: [],
    residual: 1 - heritability,
  }));
  for (let term = 0; term < others; term++) {
    grid = grid.flatMap(({ heritability, others: before, residual }) =>
      middles(cellsOfOthers).map((part) => ({
        heritability,
        others: [...before, part * residual],
        residual: (1 - part) * residual,
      })),
    );
  }
  return grid;
}

/**
 * Breeding values of one trait with the heritability, and the shares of further terms, integrated over a grid under a stated prior: a
 * single estimate from few fish is a lottery. The scale is integrated out under 1 / variance, which leaves Student's t at each point.
 *
 * Source: Box GEP & Tiao GC (1973) Bayesian Inference in Statistical Analysis (the scale); shares of further terms flat over what is left.
 * Cost: a solution with its errors a point.
 * @throws MeritError MERIT_TOO_FEW, MERIT_NO_VARIATION, MERIT_OUT_OF_RANGE; MERIT_NOT_CONVERGED when stopped.
 */
export function valuesOverHeritability(
  scores: AnimalScores,
  {
    prior = flatPrior,
    cells = 20,
    cellsOfOthers = 5,
    onPoint = () => true,
  }: IntegrationOptions = {},
): Posterior {
  if (scores.traits.length !== 1)
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      'One trait at a time can be taken over all heritabilities.',
    );
  const animal = animalModel(scores);
  const equations = new Equations(animal.model);
  const free = degreesOfFreedom(equations);
  const grid = shareGrid(equations.model.random.length - 1, cells, cellsOfOthers);
  const points = grid.map(({ heritability, others, residual }, k): GridPoint => {
    const ratios = [heritability, ...others].map((share) => share / residual);
    const solved = solveAtRatios(animal, equations, ratios);
    const [values] = breedingValues(solved);
    if (!onPoint(k + 1, grid.length))
      throw new MeritError('MERIT_NOT_CONVERGED', 'The computation was stopped.');
    return {
      heritability,
      // At its best scale the likelihood differs from the integral over the scale by a constant.
      logDensity: solved.logLikelihood,
      logPrior: Math.log(prior.density(heritability)),
      ...values!,
    };
  });
  return new Posterior(points, cells, free);
}
