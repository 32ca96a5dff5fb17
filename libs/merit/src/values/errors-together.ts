import type { SolvedModel } from './breeding-values.js';

/**
 * Covariances of the errors of some fish's breeding values: those of relatives go together, for they rest on the same scores.
 *
 * @returns fish x fish, row by row, in the square of the trait's unit; on the diagonal the squares of the standard errors.
 * Cost: one solution by the factor a fish.
 */
export function errorsTogether(
  { equations, fit, scale }: SolvedModel,
  fish: ArrayLike<number>,
  trait = 0,
): Float64Array {
  const { slots } = equations.model.random[0]!;
  const slot = slots.findIndex((each) => each.trait === trait);
  const places = Array.from(
    fish,
    (index) => equations.termEquation[0]![index * slots.length + slot]!,
  );
  const errors = new Float64Array(places.length ** 2);
  places.forEach((place, row) => {
    const side = new Float64Array(equations.size);
    side[place] = 1;
    const column = fit.factor.solve(side);
    places.forEach((other, k) => (errors[row * places.length + k] = scale * column[other]!));
  });
  return errors;
}
