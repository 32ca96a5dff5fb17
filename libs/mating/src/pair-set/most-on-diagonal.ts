/** Shares of the mean of the diagonal that the edge is neared by, one after the other. */
const STEPS = [0.3, 0.1, 0.03, 0.01, 0.003, 0.001, 0.0003];
const SWEEPS = 3;
/** Size beyond which the diagonal itself is given: a share of it is found in a part of the time. */
const MOST = 160;
/** Added to the diagonal while it is worked with, as a share of its mean: where the matrix is flat in a direction it has no inverse. */
const FLAT = 1e-7;

/**
 * The diagonal E >= 0 of about the greatest sum with which `matrix` - E has no negative direction: sum E + step x log det(matrix - E) is made
 * greatest for smaller and smaller steps, one entry at a time in closed form (a barrier method; Boyd S & Vandenberghe L (2004) Convex
 * Optimization, chapter 11, from memory).
 *
 * @param matrix size x size, symmetric, without a negative direction. @returns E; all 0 where none was found, and the whole diagonal, of
 *   which a share may be taken, where the matrix is large.
 *
 * Cost: some twenty times the cube of `size`.
 */
export function mostOnDiagonal(matrix: Float64Array, size: number): Float64Array {
  const taken = new Float64Array(size);
  const diagonal = taken.map((_, k) => matrix[k * (size + 1)]!);
  if (size > MOST) return diagonal;
  const mean = diagonal.reduce((sum, each) => sum + each, 0) / size;
  const inverse = inverseOf(matrix, size, FLAT * mean);
  if (inverse === null) return taken;
  for (const step of STEPS)
    for (let sweep = 0; sweep < SWEEPS; sweep++)
      for (let k = 0; k < size; k++) {
        const own = inverse[k * size + k]!;
        const more = Math.max(1 / own - step * mean, -taken[k]!);
        taken[k]! += more;
        addToInverse(inverse, size, k, more / (1 - more * own));
      }
  return taken.map((each) => Math.max(0, each - 2 * FLAT * mean));
}

/** The inverse after `factor` times the square of its row `k` was added. */
function addToInverse(inverse: Float64Array, size: number, k: number, factor: number): void {
  const row = inverse.slice(k * size, (k + 1) * size);
  for (let i = 0; i < size; i++) {
    const each = factor * row[i]!;
    if (each === 0) continue;
    for (let j = 0; j < size; j++) inverse[i * size + j]! += each * row[j]!;
  }
}

/** The inverse of the matrix with `added` on its diagonal, by elimination; null where there is none. */
function inverseOf(matrix: Float64Array, size: number, added: number): Float64Array | null {
  const rest = matrix.map((each, cell) => (cell % (size + 1) === 0 ? each + added : each));
  const inverse = new Float64Array(size * size);
  for (let k = 0; k < size; k++) inverse[k * size + k] = 1;
  for (let k = 0; k < size; k++) {
    const pivot = rest[k * size + k]!;
    if (!(pivot > 0)) return null;
    for (let j = 0; j < size; j++) {
      rest[k * size + j]! /= pivot;
      inverse[k * size + j]! /= pivot;
    }
    for (let i = 0; i < size; i++) {
      const by = rest[i * size + k]!;
      if (i === k || by === 0) continue;
      for (let j = 0; j < size; j++) {
        rest[i * size + j]! -= by * rest[k * size + j]!;
        inverse[i * size + j]! -= by * inverse[k * size + j]!;
      }
    }
  }
  return inverse;
}
