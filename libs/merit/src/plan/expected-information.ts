import { averageInformation } from '../mixed/information.js';
import type { Fit } from '../mixed/fit.js';
import { parametersOf, valuesOf } from '../mixed/parameters.js';
import { invertDefinite } from '../mixed/small-matrix.js';
import type { AnimalModel } from '../values/animal-model.js';
import { scoreDrawer } from '../values/draw-scores.js';

/** Scores are drawn until so many have been drawn in all, within the bounds below. */
const DRAWN_SCORES = 8_000;
const FEWEST_DRAWS = 12;
const MOST_DRAWS = 400;

/**
 * What the places of scores tell of the heritability, whatever the scores will be: expected information, 1 / variance of the estimate of
 * V_A / (all variances) when all other shares are estimated too. 0 where it cannot be told at all.
 *
 * The expected information of the variances, 1/2 tr(P V_i P V_j), is the mean of the average information over scores drawn from the
 * model (Gilmour AR, Thompson R & Cullis BR 1995, Biometrics 51:1440-1450: it stands between observed and expected information and has
 * the latter's mean); the heritability follows by the delta method.
 * Cost: some solutions by the factor a draw, 20 to 400 draws.
 */
export function heritabilityInformation(animal: AnimalModel, fit: Fit, seed: number): number {
  const { equations, variances } = fit;
  const draw = scoreDrawer(animal, variances);
  const parameters = parametersOf(equations);
  const size = parameters.length;
  const information = new Float64Array(size * size);
  const wanted = Math.ceil(DRAWN_SCORES / Math.max(1, equations.scores));
  const draws = Math.min(MOST_DRAWS, Math.max(FEWEST_DRAWS, wanted));
  for (let k = 0; k < draws; k++)
    averageInformation(fit.solveFor(draw(seed * MOST_DRAWS + k).scores), parameters).forEach(
      (value, place) => {
        information[place]! += value / draws;
      },
    );
  const inverted = invertDefinite(information, size);
  if (inverted === null) return 0;
  const at = valuesOf(parameters, variances);
  const total = at.reduce((sum, value) => sum + value, 0);
  const slope = at.map((_, k) => ((k === 0 ? total : 0) - at[0]!) / total ** 2);
  let variance = 0;
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++)
      variance += slope[i]! * slope[j]! * inverted.inverse[i * size + j]!;
  return variance > 0 ? 1 / variance : 0;
}
