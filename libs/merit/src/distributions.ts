import { MeritError } from './merit-error.js';

const COEFFICIENTS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313,
  -176.61502916214059, 12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6,
  1.5056327351493116e-7,
] as const;

/** ln Γ(x) for x > 0 by Lanczos's approximation (g = 7, nine terms); about 15 digits. */
export const logGamma = (x: number): number => {
  const at = x - 1;
  let sum: number = COEFFICIENTS[0];
  for (let k = 1; k < COEFFICIENTS.length; k++) sum += (COEFFICIENTS[k] ?? 0) / (at + k);
  const t = at + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (at + 0.5) * Math.log(t) - t + Math.log(sum);
};

/** The continued fraction of the incomplete beta function, by the modified Lentz method; quick for x < (a + 1)/(a + b + 2). */
const betaFraction = (a: number, b: number, x: number): number => {
  const tiny = 1e-300;
  const kept = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    result *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    result *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return result;
};

/** Regularised incomplete beta function I(x; a, b). */
const incompleteBeta = (x: number, a: number, b: number): number => {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x),
  );
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(a, b, x)) / a
    : 1 - (front * betaFraction(b, a, 1 - x)) / b;
};

const expectFreedom = (degrees: number): void => {
  if (Number.isFinite(degrees) && degrees > 0) return;
  throw new MeritError(
    'MERIT_OUT_OF_RANGE',
    `${degrees} degrees of freedom: give a number above 0.`,
    { degrees },
  );
};

/**
 * P(F > f), the upper tail of Fisher's F with `numerator` and `denominator` degrees of freedom, by the incomplete beta
 * function.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE when degrees of freedom are not above 0.
 * @example fUpperTail(4.0, 3, 20) // about 0.022
 */
export const fUpperTail = (f: number, numerator: number, denominator: number): number => {
  expectFreedom(numerator);
  expectFreedom(denominator);
  if (f <= 0) return 1;
  return incompleteBeta(
    denominator / (denominator + numerator * f),
    denominator / 2,
    numerator / 2,
  );
};

/** The value x between 0 and 1 at which `rising` reaches `target`, by halving. */
const halve = (rising: (x: number) => number, target: number): number => {
  let low = 0;
  let high = 1;
  for (let k = 0; k < 200; k++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (rising(middle) < target) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

const expectProbability = (probability: number): void => {
  if (probability > 0 && probability < 1) return;
  throw new MeritError(
    'MERIT_OUT_OF_RANGE',
    `The probability ${probability} does not lie between 0 and 1.`,
    { probability },
  );
};

/**
 * The value of Fisher's F below which a share `probability` lies.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE.
 * @example fQuantile(0.95, 3, 20) // 3.098
 */
export const fQuantile = (probability: number, numerator: number, denominator: number): number => {
  expectProbability(probability);
  expectFreedom(numerator);
  expectFreedom(denominator);
  const x = halve((at) => incompleteBeta(at, denominator / 2, numerator / 2), 1 - probability);
  return (denominator * (1 - x)) / (numerator * x);
};

/**
 * The value t that Student's t exceeds in either direction with probability 1 - `certainty`: t² is F with 1 and
 * `degrees` degrees of freedom.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE.
 * @example studentTwoSided(0.95, 9) // 2.262
 */
export const studentTwoSided = (certainty: number, degrees: number): number =>
  Math.sqrt(fQuantile(certainty, 1, degrees));

/**
 * P(T > t) of Student's t, or of the normal distribution for infinite `degrees`.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE.
 * @example studentTail(2.262, 9) // 0.025
 */
export const studentTail = (t: number, degrees: number): number => {
  if (degrees > 1e6) return 1 - normalBelow(t);
  if (Math.abs(t) === Infinity) return t > 0 ? 0 : 1;
  const half = fUpperTail(t * t, 1, degrees) / 2;
  return t > 0 ? half : 1 - half;
};

/** P(Z < z) of the standard normal distribution, by the incomplete gamma function of 1/2; about 15 digits. */
export const normalBelow = (z: number): number => {
  if (Math.abs(z) > 38) return z > 0 ? 1 : 0;
  const tail = 0.5 * upperGammaHalf((z * z) / 2);
  return z > 0 ? 1 - tail : tail;
};

/** Density of the standard normal distribution. */
export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

/** The z with P(Z < z) = probability, by halving and Newton's steps. @throws MeritError MERIT_OUT_OF_RANGE. */
export const normalQuantile = (probability: number): number => {
  expectProbability(probability);
  let [low, high] = [-38, 38];
  for (let k = 0; k < 200; k++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (normalBelow(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

const LOG_GAMMA_HALF = 0.5 * Math.log(Math.PI);

/** Q(1/2, x): the upper incomplete gamma function of 1/2 as a share of the whole; series below 1.5, continued fraction above. */
const upperGammaHalf = (x: number): number => {
  if (x <= 0) return 1;
  const front = Math.exp(-x + 0.5 * Math.log(x) - LOG_GAMMA_HALF);
  if (x < 1.5) {
    let term = 2;
    let sum = 2;
    for (let n = 1; n < 500 && term > 1e-17 * sum; n++) {
      term *= x / (0.5 + n);
      sum += term;
    }
    return 1 - sum * front;
  }
  let b = x + 0.5;
  let c = 1e300;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < 500; n++) {
    const a = -n * (n - 0.5);
    b += 2;
    d = 1 / (a * d + b);
    c = b + a / c;
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return front * h;
};
