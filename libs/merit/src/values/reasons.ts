import { weighted } from '../mixed/fit.js';
import type { SolvedModel } from './breeding-values.js';

/** What the scores of one fish do to the breeding value of another. */
export interface Reason {
  /** Index of the fish whose scores count. */
  readonly fish: number;
  readonly scores: number;
  /** By how much the breeding value would rise if all these scores were one unit higher. */
  readonly weight: number;
  /** Weight times how far the scores stand from what the fixed part expects: the parts add up to the breeding value. */
  readonly contribution: number;
}

/**
 * Why a fish has its breeding value: which relatives' scores count for how much. The largest parts first; their sum is the breeding
 * value.
 *
 * Cost: one solution by the factor, and the rows.
 * @param trait position of the trait whose breeding value is asked for.
 */
export function reasonsFor(solved: SolvedModel, fish: number, trait = 0): Reason[] {
  const { equations, fit, solution } = solved;
  const { model } = equations;
  const { slots } = model.random[0]!;
  const side = new Float64Array(equations.size);
  const slot = slots.findIndex((each) => each.trait === trait);
  side[equations.termEquation[0]![fish * slots.length + slot]!] = 1;
  const x = fit.factor.solve(side);
  const fixedOnly = solution.slice().fill(0, equations.design.equations.length);
  const weights = weighted(equations, fit.inverse, timesRows(solved, x));
  const expected = timesRows(solved, fixedOnly);
  const found = new Map<number, { scores: number; weight: number; contribution: number }>();
  model.traits.forEach(({ values }, t) => {
    const fishOf = slots.find((each) => each.trait === t)!.level;
    for (let row = 0; row < values.length; row++) {
      if (Number.isNaN(values[row]!)) continue;
      const one = found.get(fishOf[row]!) ?? { scores: 0, weight: 0, contribution: 0 };
      one.scores++;
      if (t === trait) one.weight += weights[t]![row]!;
      one.contribution += weights[t]![row]! * (values[row]! - expected[t]![row]!);
      found.set(fishOf[row]!, one);
    }
  });
  return [...found]
    .map(([of, parts]) => ({ fish: of, ...parts }))
    .filter(({ weight, contribution }) => weight !== 0 || contribution !== 0)
    .sort((a, b) => Math.abs(b.contribution) - Math.abs(a.contribution) || a.fish - b.fish);
}

function timesRows({ equations }: SolvedModel, solution: Float64Array): Float64Array[] {
  return equations.rows.map((entries, t) =>
    Float64Array.from(equations.model.traits[t]!.values, (score, row) =>
      Number.isNaN(score) ? 0 : entries.times(row, solution),
    ),
  );
}

/** The mean breeding value of some fish, with its own standard error: errors of relatives go together. */
export function meanBreedingValue(
  { equations, fit, scale, solution }: SolvedModel,
  fish: ArrayLike<number>,
  trait = 0,
): { readonly value: number; readonly standardError: number } {
  const { slots } = equations.model.random[0]!;
  const slot = slots.findIndex((each) => each.trait === trait);
  const side = new Float64Array(equations.size);
  for (let k = 0; k < fish.length; k++)
    side[equations.termEquation[0]![fish[k]! * slots.length + slot]!]! += 1 / fish.length;
  const x = fit.factor.solve(side);
  let [value, variance] = [0, 0];
  for (let k = 0; k < side.length; k++) {
    value += side[k]! * solution[k]!;
    variance += side[k]! * x[k]!;
  }
  return { value, standardError: Math.sqrt(scale * variance) };
}
