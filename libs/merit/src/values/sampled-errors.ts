import { MeritError } from '../merit-error.js';
import type { Equations } from '../mixed/equations.js';
import { iteration } from '../mixed/iterate.js';
import type { Variances } from '../mixed/mixed-model.js';
import type { AnimalModel } from './animal-model.js';
import { scoreDrawer } from './draw-scores.js';

export interface SamplingOptions {
  /** How many times scores are drawn. Default 60: standard errors good to 7 to 9 % (measured). */
  readonly draws?: number;
  readonly seed?: number;
  /** Called after each draw: return false to stop. */
  readonly onDraw?: (done: number, all: number) => boolean;
}

/** Solutions of drawn scores need not be exact: what is left out is small beside what chance does. */
const TOLERANCE = 1e-4;

/**
 * Error variances of breeding values without the inverse of the equations: scores are drawn from the model and solved by iteration, and true
 * and predicted values compared. Two estimates, G (1 + F) - var(prediction) and var(true - prediction), are good where accuracy is low
 * and where it is high; they are weighted by their own variances of sampling, 2 (G - P)^2 / draws and 2 P^2 / draws. With genetic groups
 * only the second holds.
 *
 * Source: García-Cortés LA, Moreno C, Varona L & Altarriba J (1995) J Anim Breed Genet 112:176-182 (from memory); Hickey JM, Veerkamp RF, Calus
 * MPL, Mulder HA & Thompson R (2009) Genet Sel Evol 41:23 (abstract read; the weights here are worked out anew).
 * Cost: an iteration a draw.
 * @returns by equation of the additive term, `NaN` for all other equations.
 * @throws MeritError MERIT_NOT_CONVERGED, also when stopped; MERIT_OUT_OF_RANGE for fewer than 10 draws.
 */
export function sampledErrorVariances(
  animal: AnimalModel,
  equations: Equations,
  variances: Variances,
  { draws = 60, seed = 1, onDraw = () => true }: SamplingOptions = {},
): Float64Array {
  if (!(Number.isInteger(draws) && draws >= 10))
    throw new MeritError('MERIT_OUT_OF_RANGE', `${draws} draws are too few: take 10 or more.`, {
      draws,
    });
  const draw = scoreDrawer(animal, variances);
  const solve = iteration(equations, variances);
  const numbers = equations.termEquation[0]!;
  const { slots, groups } = equations.model.random[0]!;
  const own = animal.pedigree.size * slots.length;
  const ofPrediction = new Float64Array(own);
  const ofError = new Float64Array(own);
  for (let k = 0; k < draws; k++) {
    const { breedingValues, scores } = draw(seed * 1e6 + k);
    const { solution } = solve(scores, { tolerance: TOLERANCE });
    for (let i = 0; i < own; i++) {
      const predicted = solution[numbers[i]!]!;
      ofPrediction[i]! += predicted ** 2 / draws;
      ofError[i]! += (breedingValues[i]! - predicted) ** 2 / draws;
    }
    if (!onDraw(k + 1, draws))
      throw new MeritError('MERIT_NOT_CONVERGED', 'The computation was stopped.');
  }
  const result = new Float64Array(equations.size).fill(NaN);
  for (let i = 0; i < own; i++) {
    const slot = i % slots.length;
    const whole =
      variances.random[0]![slot]![slot]! * (1 + animal.inbreeding[Math.floor(i / slots.length)]!);
    result[numbers[i]!] =
      groups === undefined ? weighedError(whole, ofPrediction[i]!, ofError[i]!) : ofError[i]!;
  }
  return result;
}

/** Both estimates together, each by its precision at what they then say; settled after a few rounds. */
function weighedError(whole: number, ofPrediction: number, ofError: number): number {
  const byPrediction = Math.max(0, whole - ofPrediction);
  let error = Math.min(whole, (byPrediction + ofError) / 2);
  for (let k = 0; k < 5; k++) {
    const [wPrediction, wError] = [
      1 / (whole - error + 1e-9 * whole) ** 2,
      1 / (error + 1e-9 * whole) ** 2,
    ];
    error = Math.min(
      whole,
      (wPrediction * byPrediction + wError * ofError) / (wPrediction + wError),
    );
  }
  return error;
}
