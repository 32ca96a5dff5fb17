import { MeritError } from '../merit-error.js';
import type { AnimalScores } from './animal-model.js';
import {
  breedingValues,
  degreesOfFreedom,
  fitAtRatios,
  type FitAtRatios,
  withErrors,
} from './breeding-values.js';
import { evenedOut } from './even-out.js';
import { cellMoments, Posterior, type GridFrame, type GridPoint } from './posterior.js';
import { flatPrior, type HeritabilityPrior } from './prior.js';
import { type Shares, sharesAt, type WeighedGrid, type WeighedShares } from './shares-grid.js';
import { type WrittenModel, writtenModel } from './written-model.js';

export interface IntegrationOptions {
  readonly prior?: HeritabilityPrior;
  /** Cells of the grid over the heritability. Default 20. */
  readonly cells?: number;
  /** Points over the shares of further random terms at one heritability, at most. Default 30. */
  readonly pointsOfOthers?: number;
  /** Called after each point, for progress and for stopping: return false to stop. A second, finer grid makes `all` larger. */
  readonly onPoint?: (done: number, all: number) => boolean;
}

/** From where to where a grid of heritabilities runs, in equal cells. */
export interface GridRange {
  readonly from: number;
  readonly to: number;
  readonly cells: number;
}

/** Middles of a range's cells. */
const middlesOf = ({ from, to, cells }: GridRange): number[] =>
  Array.from({ length: cells }, (_, k) => from + ((to - from) * (k + 0.5)) / cells);

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
/** Points over the shares of further terms at one heritability, where nothing else is asked for. */
export const POINTS_OF_OTHERS = 30;
/** Numbers in factors that are held while one heritability is gone over: 40 MB. Beyond it points are solved once more for their values. */
const MOST_HELD = 5e6;
/** Every so many cells are gone over first, so that the best is near early on. */
const WIDE_STEP = 4;

/** Goes over the heritabilities of a range; points that hold next to no probability come back without values. */
export function pointsOfGrid(range: GridRange, options: WeighedGrid): GridFound {
  const cells = middlesOf(range);
  const turns = [0, 1].flatMap((turn) =>
    cells.filter((_, k) => (k % WIDE_STEP === 0 ? 0 : 1) === turn),
  );
  const priors = new Map<number, number>();
  let best = -Infinity;
  const isFar = ({ logDensity, logPrior }: Pick<GridPoint, 'logDensity' | 'logPrior'>): boolean =>
    !(logDensity + logPrior > best - FAR_BELOW);
  const found = turns.flatMap((heritability) => {
    const weighed = sharesAt(heritability, options);
    priors.set(heritability, weighed[0]!.priorDensity);
    for (const { logDensity, logPrior } of weighed) best = Math.max(best, logDensity + logPrior);
    return weighed.flatMap((point): GridPoint[] => {
      if (isFar(point)) return [];
      const { others, logDensity, logPrior, values } = point;
      return [{ heritability, others, logDensity, logPrior, ...values() }];
    });
  });
  const points = found
    .filter((point) => !isFar(point))
    .sort((a, b) => a.heritability - b.heritability);
  return { points: options.others === 0 ? points : evenedOut(points, cells, priors), cells };
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
 * Cost: a solution with its errors a point, some 5 to 20 points a heritability where there are further terms; the grid once more where
 * thousands of scores ask for a finer one.
 * @param written the model of these very scores, where it is written already.
 * @throws MeritError MERIT_TOO_FEW, MERIT_NO_VARIATION, MERIT_OUT_OF_RANGE; MERIT_NOT_CONVERGED when stopped.
 */
export function valuesOverHeritability(
  scores: AnimalScores,
  {
    prior = flatPrior,
    cells = 20,
    pointsOfOthers = POINTS_OF_OTHERS,
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
  const others = equations.model.random.length - 1;
  const most = others === 0 ? 1 : pointsOfOthers;
  const solve = ({ heritability, others: parts, residual }: Shares): FitAtRatios =>
    fitAtRatios(
      animal,
      equations,
      [heritability, ...parts].map((share) => share / residual),
    );
  const holds = equations.symbolic.entries * most <= MOST_HELD;
  let [done, all] = [0, 0];
  const weigh = (shares: Shares): WeighedShares => {
    const solved = solve(shares);
    if (!onPoint(++done, Math.max(all, done)))
      throw new MeritError('MERIT_NOT_CONVERGED', 'The computation was stopped.');
    const held = holds ? solved : null;
    return {
      // At its best scale the likelihood differs from the integral over the scale by a constant.
      logDensity: solved.logLikelihood,
      logPrior: Math.log(prior.density(shares.heritability)),
      values: () => breedingValues(withErrors(held ?? solve(shares)))[0]!,
    };
  };
  const pointsOf = (range: GridRange): GridFound => {
    all += range.cells * most;
    return pointsOfGrid(range, { others, most, weigh });
  };
  return overGrid(
    { from: 0, to: 1, cells },
    priorMoments(prior, cells),
    degreesOfFreedom(equations),
    pointsOf,
  );
}
