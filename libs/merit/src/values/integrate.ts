import { MeritError } from '../merit-error.js';
import type { AnimalScores } from './animal-model.js';
import { breedingValues, degreesOfFreedom, fitAtRatios, withErrors } from './breeding-values.js';
import { cellMoments, Posterior, type GridFrame, type GridPoint } from './posterior.js';
import { flatPrior, type HeritabilityPrior } from './prior.js';
import { type WrittenModel, writtenModel } from './written-model.js';

export interface IntegrationOptions {
  readonly prior?: HeritabilityPrior;
  /** Cells of the grid over the heritability. Default 20. */
  readonly cells?: number;
  /** Cells over the share of each further random term in what is left. Default 5. */
  readonly cellsOfOthers?: number;
  /** Called after each point, for progress and for stopping: return false to stop. A second, finer grid makes `all` larger. */
  readonly onPoint?: (done: number, all: number) => boolean;
}

/** Shares of the whole variance: of the breeding value, of each further term, of the residual. */
export interface Shares {
  readonly heritability: number;
  readonly others: readonly number[];
  readonly residual: number;
}

/** From where to where a grid of heritabilities runs, in equal cells. */
export interface GridRange {
  readonly from: number;
  readonly to: number;
  readonly cells: number;
}

/** Middles of cells: the heritability, then what each further term takes of the rest. */
export function shareGrid(
  others: number,
  { from, to, cells }: GridRange,
  cellsOfOthers: number,
): Shares[] {
  const middles = (count: number): number[] =>
    Array.from({ length: count }, (_, k) => (k + 0.5) / count);
  let grid: Shares[] = middles(cells).map((middle) => {
    const heritability = from + (to - from) * middle;
    return { heritability, others: [], residual: 1 - heritability };
  });
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

/** Mean and standard deviation of a prior over all heritabilities. */
export function priorMoments({ density }: HeritabilityPrior, cells: number): GridFrame['prior'] {
  const weights = new Map(
    Array.from({ length: cells }, (_, k) => (k + 0.5) / cells).map((h) => [h, density(h)]),
  );
  const [mean, variance] = cellMoments(weights, 1 / cells);
  return { mean, deviation: Math.sqrt(variance) };
}

/** Cells below this probability are left out of a finer grid. */
const NEXT_TO_NONE = 1e-4;
/** A cell may be this many standard deviations of the heritability wide. */
const WIDEST = 0.5;

/** Points so far below the best, in ln of the density, hold 2e-9 of its probability: their values are not worked out. */
const FAR_BELOW = 20;
/** Every so many cells are gone over first, so that the best is near early on. */
const WIDE_STEP = 4;

/** A point that is weighed, and its values, which cost more than the weighing. */
export interface WeighedPoint extends Pick<GridPoint, 'logDensity' | 'logPrior'> {
  readonly values: () => Pick<GridPoint, 'value' | 'standardError' | 'accuracy'>;
}

/** Goes over a grid; points that hold next to no probability come back without values. */
export function pointsOfGrid(
  grid: readonly Shares[],
  weigh: (shares: Shares) => WeighedPoint,
): GridFound {
  const cells = [...new Set(grid.map(({ heritability }) => heritability))];
  const turn = new Map(cells.map((h, k) => [h, k % WIDE_STEP === 0 ? 0 : 1]));
  let best = -Infinity;
  const found = [0, 1].flatMap((now) =>
    grid.flatMap((shares): GridPoint[] => {
      if (turn.get(shares.heritability) !== now) return [];
      const { logDensity, logPrior, values } = weigh(shares);
      best = Math.max(best, logDensity + logPrior);
      if (!(logDensity + logPrior > best - FAR_BELOW)) return [];
      const { heritability, others } = shares;
      return [{ heritability, others, logDensity, logPrior, ...values() }];
    }),
  );
  const points = found
    .filter(({ logDensity, logPrior }) => logDensity + logPrior > best - FAR_BELOW)
    .sort((a, b) => a.heritability - b.heritability);
  return { points, cells };
}

export interface GridFound {
  readonly points: readonly GridPoint[];
  /** All heritabilities gone over, rising. */
  readonly cells: readonly number[];
}

/**
 * Values over a grid of heritabilities that is made finer while its cells are too wide for what is known: with thousands of fish all
 * the probability lies in one or two cells of twenty, and its bands would be those of the cells.
 */
export function overGrid(
  range: GridRange,
  prior: GridFrame['prior'],
  freedom: number,
  pointsOf: (range: GridRange) => GridFound,
): Posterior {
  let now = range;
  for (;;) {
    const width = (now.to - now.from) / now.cells;
    const { points, cells } = pointsOf(now);
    const posterior = new Posterior(points, { width, freedom, prior, cells });
    const { grid, standardDeviation } = posterior.heritability;
    const kept = grid.filter(({ probability }) => probability > NEXT_TO_NONE);
    const from = Math.max(0, kept[0]!.heritability - 1.5 * width);
    const to = Math.min(1, kept.at(-1)!.heritability + 1.5 * width);
    const finer = (to - from) / now.cells;
    if (width <= WIDEST * standardDeviation || finer > 0.8 * width) return posterior;
    now = { from, to, cells: now.cells };
  }
}

/**
 * Breeding values of one trait with the heritability, and the shares of further terms, integrated over a grid under a stated prior: a
 * single estimate from few fish is a lottery. The scale is integrated out under 1 / variance, which leaves Student's t at each point.
 *
 * Source: Box GEP & Tiao GC (1973) Bayesian Inference in Statistical Analysis (the scale); shares of further terms flat over what is left.
 * Cost: a solution with its errors a point; the grid once more where thousands of scores ask for a finer one.
 * @param written the model of these very scores, where it is written already.
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
  written?: WrittenModel,
): Posterior {
  if (scores.traits.length !== 1)
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      'One trait at a time can be taken over all heritabilities.',
    );
  const { animal, equations } = written ?? writtenModel(scores);
  let [done, all] = [0, 0];
  const pointsOf = (range: GridRange): GridFound => {
    const grid = shareGrid(equations.model.random.length - 1, range, cellsOfOthers);
    all += grid.length;
    return pointsOfGrid(grid, ({ heritability, others, residual }) => {
      const solved = fitAtRatios(
        animal,
        equations,
        [heritability, ...others].map((share) => share / residual),
      );
      if (!onPoint(++done, all))
        throw new MeritError('MERIT_NOT_CONVERGED', 'The computation was stopped.');
      return {
        // At its best scale the likelihood differs from the integral over the scale by a constant.
        logDensity: solved.logLikelihood,
        logPrior: Math.log(prior.density(heritability)),
        values: () => breedingValues(withErrors(solved))[0]!,
      };
    });
  };
  return overGrid(
    { from: 0, to: 1, cells },
    priorMoments(prior, cells),
    degreesOfFreedom(equations),
    pointsOf,
  );
}
