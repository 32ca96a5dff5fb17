import { invertDefinite } from '../mixed/small-matrix.js';

/** The top of a smooth function of a few variables. */
export interface Maximum {
  readonly at: Float64Array;
  readonly value: number;
  /** Inverse of the negative second derivatives, row by row; null where they are not definite. Cost: the derivatives once more. */
  readonly covariance: () => Float64Array | null;
}

/** Newton's steps double the digits: after a rise as small as this the next one is lost in rounding. */
const ENOUGH = 1e-10;

/**
 * Climbs to a maximum by Newton's method with derivatives by differences, damped where the function is not round. -Infinity marks what is
 * out of range.
 *
 * Cost: some ten steps of twice the square of the variables evaluations.
 */
export function maximise(f: (x: Float64Array) => number, start: ArrayLike<number>): Maximum {
  let x = Float64Array.from(start);
  let value = f(x);
  let damping = 0;
  for (let step = 0; step < 200; step++) {
    const { gradient, curvature } = derivatives(f, x, value);
    let moved = false;
    for (let trial = 0; trial < 25 && !moved; trial++) {
      const direction = stepOf(gradient, curvature, damping);
      const next = direction === null ? null : x.map((v, k) => v + direction[k]!);
      const risen = next === null ? -Infinity : f(next);
      if (next !== null && risen > value) {
        const rise = risen - value;
        [x, value, moved] = [next, risen, true];
        damping = damping < 1e-6 ? 0 : damping / 10;
        if (rise < ENOUGH * (1 + Math.abs(value))) step = 200;
      } else damping = damping === 0 ? 1e-4 : damping * 10;
    }
    if (!moved) break;
  }
  return {
    at: x,
    value,
    covariance: () => invertDefinite(derivatives(f, x, value).curvature, x.length)?.inverse ?? null,
  };
}

function stepOf(
  gradient: Float64Array,
  curvature: Float64Array,
  damping: number,
): Float64Array | null {
  const size = gradient.length;
  const damped = curvature.slice();
  for (let i = 0; i < size; i++)
    damped[i * size + i]! += damping * (1 + Math.abs(curvature[i * size + i]!));
  const inverted = invertDefinite(damped, size);
  if (inverted === null) return null;
  return gradient.map((_, i) =>
    gradient.reduce((sum, g, j) => sum + inverted.inverse[i * size + j]! * g, 0),
  );
}

/** Gradient and negative second derivatives by central differences. */
function derivatives(f: (x: Float64Array) => number, x: Float64Array, value: number) {
  const size = x.length;
  const h = x.map((v) => 1e-4 * Math.max(Math.abs(v), 0.1));
  const moved = (i: number, a: number, j = i, b = 0): number => {
    const at = x.slice();
    at[i]! += a * h[i]!;
    at[j]! += b * h[j]!;
    return f(at);
  };
  const gradient = new Float64Array(size);
  const curvature = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    const [up, down] = [moved(i, 1), moved(i, -1)];
    gradient[i] = (up - down) / (2 * h[i]!);
    curvature[i * size + i] = -(up - 2 * value + down) / h[i]! ** 2;
    for (let j = 0; j < i; j++) {
      const cross =
        moved(i, 1, j, 1) - moved(i, 1, j, -1) - moved(i, -1, j, 1) + moved(i, -1, j, -1);
      curvature[i * size + j] = curvature[j * size + i] = -cross / (4 * h[i]! * h[j]!);
    }
  }
  return { gradient, curvature };
}

/** The x between a and b where a monotone function passes 0, by halving. */
export function crossing(f: (x: number) => number, a: number, b: number): number {
  const sign = Math.sign(f(a)) || -Math.sign(f(b));
  let [low, high] = [a, b];
  for (let k = 0; k < 200; k++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (Math.sign(f(middle)) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
