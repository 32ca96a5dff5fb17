import { MeritError } from '../merit-error.js';
import type { FixedColumn } from '../mixed/mixed-model.js';
import { animalModel, type AnimalScores } from '../values/animal-model.js';
import { groupShares } from '../values/genetic-groups.js';
import {
  overGrid,
  priorMoments,
  shareGrid,
  type GridRange,
  type IntegrationOptions,
} from '../values/integrate.js';
import type { GridPoint, Posterior } from '../values/posterior.js';
import { flatPrior } from '../values/prior.js';
import { solveThreshold, type ThresholdSolution } from './threshold-model.js';

/** Scores in ordered classes: one trait whose values are the classes, 0 to `classes - 1`, `NaN` where not scored. */
export interface ClassScores extends AnimalScores {
  readonly classes: number;
}

/** Breeding values of a liability, in standard deviations of its residual. */
export interface ThresholdPosterior {
  readonly posterior: Posterior;
  /** The solution at the heaviest point of the grid. */
  readonly heaviest: ThresholdSolution;
}

/**
 * Breeding values of an unseen liability behind ordered classes, with its heritability integrated over a grid under a stated prior. Each
 * point is weighted by the density of the scores with effects integrated out by Laplace's approximation.
 *
 * Lines of founders are columns of shares among the fixed effects; a value holds its line's part, its error does not.
 * Source: Gianola D & Foulley JL (1983) Genet Sel Evol 15:201-224 (the model). With yes/no traits and few looks a fish the approximation
 * leans low, and bands come out narrower than they should.
 * Cost: a solution by Newton's method a point.
 * @throws MeritError as solveThreshold, and MERIT_NOT_CONVERGED when stopped.
 */
export function thresholdOverHeritability(
  scores: ClassScores,
  {
    prior = flatPrior,
    cells = 20,
    cellsOfOthers = 5,
    onPoint = () => true,
  }: IntegrationOptions = {},
): ThresholdPosterior {
  if (scores.traits.length !== 1)
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      'One trait at a time can be taken over all heritabilities.',
    );
  const { groups, ...ungrouped } = scores;
  const animal = animalModel(ungrouped);
  const lines = groups === undefined ? null : lineColumns(scores, groups);
  const classOf = Int32Array.from(scores.traits[0]!.values, (value) =>
    Number.isNaN(value) ? -1 : value,
  );
  let before: ThresholdSolution | undefined;
  let heaviest: { weight: number; solution: ThresholdSolution } | null = null;
  let [done, all] = [0, 0];
  const pointsOf = (range: GridRange): GridPoint[] => {
    const grid = shareGrid(animal.model.random.length - 1, range, cellsOfOthers);
    all += grid.length;
    return grid.map(({ heritability, others, residual }): GridPoint => {
      const variances = [heritability, ...others].map((share) => share / residual);
      const solution = solveThreshold({
        scores: classOf,
        classes: scores.classes,
        fixed: [...animal.model.fixed, ...(lines?.columns ?? [])],
        random: animal.model.random,
        variances,
        ...(before !== undefined && { start: before.solution }),
      });
      before = solution;
      if (!onPoint(++done, all))
        throw new MeritError('MERIT_NOT_CONVERGED', 'The computation was stopped.');
      const logPrior = Math.log(prior.density(heritability));
      const weight = solution.logMarginal + logPrior;
      if (heaviest === null || weight > heaviest.weight) heaviest = { weight, solution };
      return {
        heritability,
        others,
        logDensity: solution.logMarginal,
        logPrior,
        ...liabilities(solution, animal.inbreeding, variances[0]!, lines),
      };
    });
  };
  const posterior = overGrid(
    { from: 0, to: 1, cells },
    priorMoments(prior, cells),
    Infinity,
    pointsOf,
  );
  return { posterior, heaviest: heaviest!.solution };
}

interface LineColumns {
  readonly columns: FixedColumn[];
  /** Shares of the groups in each fish, all but the first group: fish by fish. */
  readonly shares: Float64Array[];
}

/** Shares of lines in each row's fish; the first line is what the thresholds stand for. */
function lineColumns(
  { pedigree, fish }: AnimalScores,
  groups: NonNullable<AnimalScores['groups']>,
): LineColumns {
  const all = groupShares(pedigree, groups);
  const count = groups.names.length;
  const shares = groups.names
    .slice(1)
    .map((_, g) =>
      Float64Array.from({ length: pedigree.size }, (__, i) => all[i * count + g + 1]!),
    );
  return {
    shares,
    columns: shares.map((share, g) => ({
      kind: 'covariate',
      name: groups.names[g + 1]!,
      values: Float64Array.from(fish, (index) => share[index]!),
    })),
  };
}

function liabilities(
  { equations, solution, errorVariances }: ThresholdSolution,
  inbreeding: Float64Array,
  variance: number,
  lines: LineColumns | null,
): Pick<GridPoint, 'value' | 'standardError' | 'accuracy'> {
  const first = equations.firstOfTerm[0]!;
  const ofLine = (lines?.columns ?? []).map(({ name }) => {
    const at = equations.fixed.findIndex(({ column }) => column === name);
    return at < 0 ? 0 : solution[equations.classes - 1 + at]!;
  });
  const size = inbreeding.length;
  const value = new Float64Array(size);
  const standardError = new Float64Array(size);
  const accuracy = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    value[i] = ofLine.reduce(
      (sum, effect, g) => sum + effect * lines!.shares[g]![i]!,
      solution[first + i]!,
    );
    const error = errorVariances[first + i]!;
    standardError[i] = Math.sqrt(error);
    accuracy[i] = Math.sqrt(Math.max(0, 1 - error / (variance * (1 + inbreeding[i]!))));
  }
  return { value, standardError, accuracy };
}
