import { HeredityError } from '../heredity-error.js';
import { assertAtMost } from '../limits.js';

const MOST_DEGREES = 10_000_000;
const ITERATIONS = 10_000;
const PRECISION = 1e-16;

/** ln Γ(df/2), from Γ(1/2) = √π or Γ(1) = 1 upward. */
function logGammaOfHalf(df: number): number {
  let at = df % 2 === 0 ? 1 : 0.5;
  let log = df % 2 === 0 ? 0 : 0.5 * Math.log(Math.PI);
  for (; at < df / 2; at++) log += Math.log(at);
  return log;
}

/** Lower regularised incomplete gamma function by its power series; converges quickly for x < a + 1. */
function lowerSeries(a: number, x: number, logGamma: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < ITERATIONS && term > sum * PRECISION; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * Math.exp(-x + a * Math.log(x) - logGamma);
}

/** Upper regularised incomplete gamma function by its continued fraction (modified Lentz), for x >= a + 1. */
function upperContinuedFraction(a: number, x: number, logGamma: number): number {
  const tiny = Number.MIN_VALUE / PRECISION;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let h = d;
  for (let i = 1; i < ITERATIONS; i++) {
    const an = -i * (i - a);
    b += 2;
    d = an * d + b;
    if (Math.abs(d) < tiny) d = tiny;
    c = b + an / c;
    if (Math.abs(c) < tiny) c = tiny;
    d = 1 / d;
    const change = d * c;
    h *= change;
    if (Math.abs(change - 1) < PRECISION * 4) break;
  }
  return Math.exp(-x + a * Math.log(x) - logGamma) * h;
}

/**
 * Probability that a chi-square variable with `df` degrees of freedom reaches `x` or more: Q(df/2, x/2), the upper
 * regularised incomplete gamma function (Abramowitz & Stegun 1964, 6.5.2, 6.5.29 and 6.5.31).
 *
 * The upper tail is computed as such, so that very small probabilities keep their digits.
 * @throws HeredityError `ARGUMENT_INVALID` unless `df` is a whole number from 1 and `x` is 0 or more; `TOO_LARGE`.
 * Cost: df steps for the gamma function, and up to 10,000 for the tail.
 * @example chiSquareUpperTail(3.84146, 1) // 0.0500
 */
export function chiSquareUpperTail(x: number, df: number): number {
  if (!(x >= 0) || !Number.isInteger(df) || df < 1) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `Chi-square ${String(x)} with ${String(df)} degrees of freedom makes no sense: both must be positive, the latter whole.`,
      { x, df },
    );
  }
  assertAtMost(df, MOST_DEGREES, 'degrees of freedom', 'Test fewer classes or broods.');
  if (x === 0) return 1;
  if (x === Infinity) return 0;
  const a = df / 2;
  const half = x / 2;
  const logGamma = logGammaOfHalf(df);
  return half < a + 1
    ? 1 - lowerSeries(a, half, logGamma)
    : upperContinuedFraction(a, half, logGamma);
}
