import { MatingError } from '../mating-error.js';

/** Rounding of a variance that is 0, as a share of the largest. */
const ROUNDING = 1e-9;

/**
 * Lower triangle L with L L' the given covariances, row by row; fish that are known for certain, or follow from others, get a 0 on the
 * diagonal.
 *
 * @throws MatingError MATING_BAD_BELIEF when no errors can have such covariances. Cost: fish to the third.
 */
export function errorRoot(traitId: string, error: Float64Array, size: number): Float64Array {
  const root = new Float64Array(size * size);
  let largest = 0;
  for (let i = 0; i < size; i++) largest = Math.max(largest, error[i * size + i]!);
  for (let j = 0; j < size; j++) {
    let pivot = error[j * size + j]!;
    for (let k = 0; k < j; k++) pivot -= root[j * size + k]! ** 2;
    if (pivot < -1e-6 * Math.max(largest, 1e-300))
      throw new MatingError(
        'MATING_BAD_BELIEF',
        traitId,
        `The covariances of the errors of "${traitId}" cannot be: they are not positive. Give those of one model.`,
      );
    const own = pivot > ROUNDING * largest ? Math.sqrt(pivot) : 0;
    root[j * size + j] = own;
    if (own === 0) continue;
    for (let i = j + 1; i < size; i++) {
      let sum = error[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= root[i * size + k]! * root[j * size + k]!;
      root[i * size + j] = sum / own;
    }
  }
  return root;
}
