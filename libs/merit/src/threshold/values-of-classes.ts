import type { Pedigree } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';
import type { FixedColumn } from '../mixed/mixed-model.js';
import { animalModel, type AnimalScores, type SharedColumn } from '../values/animal-model.js';
import {
  overGrid,
  POINTS_OF_OTHERS,
  pointsOfGrid,
  priorMoments,
  type GridFound,
  type GridRange,
  type IntegrationOptions,
} from '../values/integrate.js';
import type { Shares, WeighedShares } from '../values/shares-grid.js';
import type { GridPoint, Posterior } from '../values/posterior.js';
import { flatPrior } from '../values/prior.js';
import { MomentsSolver, type ThresholdMoments } from './threshold-moments.js';

/** Looks at fish of a pedigree, each in one of some ordered classes; yes and no are two. */
export interface ClassScores {
  readonly pedigree: Pedigree;
  readonly fish: Int32Array;
  readonly trait: string;
  /** Class of each look, 0 to `classes - 1`; -1 where not scored. */
  readonly scores: Int32Array;
  readonly classes: number;
  readonly fixed?: readonly FixedColumn[];
  readonly shared?: readonly SharedColumn[];
  readonly permanent?: boolean;
}

/** The same looks as numbers, for the plain linear model beside it. */
export function asNumbers(scores: ClassScores): AnimalScores {
  const { pedigree, fish, trait, fixed, shared, permanent } = scores;
  const values = Float64Array.from(scores.scores, (score) => (score < 0 ? NaN : score));
  return {
    pedigree,
    fish,
    traits: [{ name: trait, values }],
    ...(fixed && { fixed }),
    ...(shared && { shared }),
    ...(permanent !== undefined && { permanent }),
  };
}

/**
 * What fixed effects of classes are taken to differ by before, in standard deviations of the liability; of our own choosing. Little is felt of it where
 * both yes and no are seen in a season; where one of them is not, the effect stays finite, as with Gelman A et al. (2008) Ann Appl Stat 2:1360-1383
 * (from memory; theirs is a Cauchy density).
 */
export const FIXED_DEVIATION = 2;

/**
 * Breeding values of a yes/no or ordered trait with the heritability of its liability, and the shares of further terms, integrated over a grid
 * under a stated prior. Values are in standard deviations of the liability.
 *
 * At each point means and errors of the threshold model by expectation propagation ({@link MomentsSolver}), weighed by its marginal density.
 * Thresholds are flat before in standard deviations of the liability: flat in those of its residual, each would draw the heritability up by the root
 * of what is left. Fixed effects have a deviation of {@link FIXED_DEVIATION} before.
 * Source: Gianola D & Foulley JL (1983) Genet Sel Evol 15:201-224 (the model).
 * Cost: some eight factorisations with their sparse inverses a point.
 * @throws MeritError as {@link animalModel} and {@link MomentsSolver}; MERIT_NOT_CONVERGED when stopped.
 */
export function classesOverHeritability(
  scores: ClassScores,
  {
    prior = flatPrior,
    cells = 20,
    pointsOfOthers = POINTS_OF_OTHERS,
    onPoint = () => true,
  }: IntegrationOptions = {},
): Posterior {
  const { model, inbreeding } = animalModel(asNumbers(scores));
  let [done, all] = [0, 0];
  const solver = new MomentsSolver({
    scores: scores.scores,
    classes: scores.classes,
    fixed: model.fixed,
    fixedDeviation: FIXED_DEVIATION,
    random: model.random,
  });
  const thresholds = scores.classes - 1;
  const others = model.random.length - 1;
  const most = others === 0 ? 1 : pointsOfOthers;
  const weigh = ({ heritability, others: parts, residual }: Shares): WeighedShares => {
    const variances = [heritability, ...parts].map((share) => share / residual);
    const solved = solver.at(variances);
    if (!onPoint(++done, Math.max(all, done)))
      throw new MeritError('MERIT_NOT_CONVERGED', 'The computation was stopped.');
    return {
      // Flat over thresholds in standard deviations of the liability, not of its residual.
      logDensity: solved.logMarginal + 0.5 * thresholds * Math.log(residual),
      logPrior: Math.log(prior.density(heritability)),
      values: () => valuesOfLiability(solved, inbreeding, heritability, residual),
    };
  };
  const pointsOf = (range: GridRange): GridFound => {
    all += range.cells * most;
    return pointsOfGrid(range, { others, most, weigh });
  };
  return overGrid({ from: 0, to: 1, cells }, priorMoments(prior, cells), Infinity, pointsOf);
}

/** From the scale on which the residual is 1 to that on which the liability is. */
function valuesOfLiability(
  { equations, mean, variance }: ThresholdMoments,
  inbreeding: Float64Array,
  heritability: number,
  residual: number,
): Pick<GridPoint, 'value' | 'standardError' | 'accuracy'> {
  const first = equations.firstOfTerm[0]!;
  const unit = Math.sqrt(residual);
  const standardError = inbreeding.map((_, i) => unit * Math.sqrt(variance[first + i]!));
  return {
    value: inbreeding.map((_, i) => unit * mean[first + i]!),
    standardError,
    accuracy: inbreeding.map((f, i) =>
      Math.sqrt(Math.max(0, 1 - standardError[i]! ** 2 / (heritability * (1 + f)))),
    ),
  };
}
