import { logGamma } from '../distributions.js';
import { MeritError } from '../merit-error.js';
import { maximise, type Maximum } from '../numeric/maximise.js';

/** A count out of a count in each brood, and what may move it. */
export interface BroodCounts {
  readonly successes: readonly number[];
  readonly totals: readonly number[];
  /** One array a column, the first of ones for a mean. */
  readonly columns: readonly (readonly number[])[];
}

/** `logit`: ln(p / (1 - p)) is the sum of effects; `log loss`: -ln p is, as when causes of death act one by one. */
export type CountLink = 'logit' | 'log loss';

export interface CountFit {
  readonly effects: readonly number[];
  readonly standardErrors: readonly (number | null)[];
  /** Beta-binomial: correlation of two young of one brood; normal: standard deviation between broods on the link's scale. */
  readonly spread: number;
  readonly logLikelihood: number;
}

const chanceOf = (link: CountLink, eta: number): number =>
  link === 'logit' ? 1 / (1 + Math.exp(-eta)) : Math.exp(-Math.max(eta, 1e-9));

/** @throws MeritError MERIT_LENGTH_MISMATCH, MERIT_OUT_OF_RANGE, MERIT_TOO_FEW. */
export function expectCounts({ successes, totals, columns }: BroodCounts): void {
  if ([totals, ...columns].some((column) => column.length !== successes.length))
    throw new MeritError(
      'MERIT_LENGTH_MISMATCH',
      'Counts and columns must have one value a brood.',
    );
  successes.forEach((k, brood) => {
    const n = totals[brood]!;
    if (Number.isInteger(k) && Number.isInteger(n) && k >= 0 && n >= k) return;
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `${k} of ${n} in brood ${brood + 1}: give whole numbers, the first no larger.`,
      {
        brood,
      },
    );
  });
  if (successes.length < columns.length + 1)
    throw new MeritError(
      'MERIT_TOO_FEW',
      `${successes.length} broods for ${columns.length} effects and the spread between broods: count more broods.`,
      { broods: successes.length },
    );
}

const etaOf = (columns: readonly (readonly number[])[], beta: ArrayLike<number>, brood: number) =>
  columns.reduce((sum, column, k) => sum + beta[k]! * column[brood]!, 0);

const logChoose = (n: number, k: number): number =>
  logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);

/**
 * ln chance of k of n with mean p and overdispersion phi = rho / (1 - rho), without the number of ways; the plain binomial at 0.
 */
export function logBetaBinomial(k: number, n: number, p: number, phi: number): number {
  return logRising(p, phi, k) + logRising(1 - p, phi, n - k) - logRising(1, phi, n);
}

/** ln of a (a + phi) (a + 2 phi) ..., so many factors. */
function logRising(a: number, phi: number, factors: number): number {
  // By the gamma function where that is less work and loses no digits.
  if (factors > 12 && phi > 1e-4) {
    const from = a / phi;
    return factors * Math.log(phi) + logGamma(from + factors) - logGamma(from);
  }
  let sum = 0;
  for (let i = 0; i < factors; i++) sum += Math.log(a + i * phi);
  return sum;
}

/**
 * Beta-binomial regression: broods differ by more than chance, with one correlation between the young of a brood. A correlation of 0
 * is an answer.
 *
 * Source: Crowder MJ (1978) Appl Stat 27:34-37.
 * Cost: young times some hundred evaluations.
 * @param fixed effects held at a value, by column.
 * @param near a fit not far away, to begin from; standard errors are then not worked out.
 */
export function fitBetaBinomial(
  counts: BroodCounts,
  link: CountLink,
  fixed: ReadonlyMap<number, number> = new Map(),
  near?: CountFit,
): CountFit {
  expectCounts(counts);
  const { successes, totals, columns } = counts;
  const free = columns.flatMap((_, k) => (fixed.has(k) ? [] : [k]));
  const ways = successes.reduce((sum, k, brood) => sum + logChoose(totals[brood]!, k), 0);
  const betaOf = (x: ArrayLike<number>): number[] => {
    const beta = columns.map((_, k) => fixed.get(k) ?? 0);
    free.forEach((k, at) => (beta[k] = x[at]!));
    return beta;
  };
  const height = (x: Float64Array, phi: number): number => {
    const beta = betaOf(x);
    let sum = 0;
    successes.forEach((k, brood) => {
      const p = chanceOf(link, etaOf(columns, beta, brood));
      sum +=
        p > 0 && p < 1
          ? logBetaBinomial(k, totals[brood]!, p, phi)
          : k === totals[brood]! && p >= 1
            ? 0
            : -Infinity;
    });
    return Number.isNaN(sum) ? -Infinity : sum;
  };
  const start =
    near === undefined ? startOf(counts, link, free) : free.map((k) => near.effects[k]!);
  const { best, spread } = climb(height, start, near?.spread ?? null);
  return {
    effects: betaOf(best.at),
    standardErrors:
      near === undefined ? errorsOf(best, columns.length, free) : unknownErrors(columns),
    spread,
    logLikelihood: best.value + ways,
  };
}

const unknownErrors = (columns: readonly unknown[]): null[] => columns.map(() => null);

/** Below this the spread between broods is taken for none. */
const NO_SPREAD = 1e-7;
const FIRST_SPREAD = 0.02;

/** @param near spread of a fit not far away; null when none is known. */
function climb(
  height: (x: Float64Array, phi: number) => number,
  start: readonly number[],
  near: number | null,
): { best: Maximum; spread: number } {
  const spreading = (from: ArrayLike<number>, phi: number): Maximum =>
    maximise((x) => height(x, Math.exp(x[start.length]!)), [...Array.from(from), Math.log(phi)]);
  const spreadOf = ({ at }: Maximum): number => Math.exp(at[start.length]!);
  const told = (best: Maximum): { best: Maximum; spread: number } => {
    const phi = spreadOf(best);
    return { best, spread: phi / (1 + phi) };
  };
  if (near !== null && near > 0) {
    const top = spreading(start, near / (1 - near));
    if (spreadOf(top) > 1e-4) return told(top);
  }
  const binomial = maximise((x) => height(x, 0), start);
  // Where the likelihood falls from none on, a fit near one without spread has none either.
  if (near === 0 && height(binomial.at, 1e-5) <= binomial.value)
    return { best: binomial, spread: 0 };
  const top = spreading(
    near === null ? binomial.at : start,
    near === null || near === 0 ? FIRST_SPREAD : near / (1 - near),
  );
  const spreads = top.value > binomial.value + 1e-9 && spreadOf(top) > NO_SPREAD;
  return spreads ? told(top) : { best: binomial, spread: 0 };
}

function startOf(
  { successes, totals, columns }: BroodCounts,
  link: CountLink,
  free: readonly number[],
): number[] {
  const sum = (list: readonly number[]): number => list.reduce((total, v) => total + v, 0);
  const p = (sum(successes) + 0.5) / (sum(totals) + 1);
  const mean = link === 'logit' ? Math.log(p / (1 - p)) : -Math.log(p);
  const ones = columns.findIndex((column) => column.every((value) => value === 1));
  return free.map((k) => (k === ones ? mean : 0));
}

function errorsOf({ covariance, at }: Maximum, count: number, free: readonly number[]) {
  const errors = new Array<number | null>(count).fill(null);
  const found = covariance();
  free.forEach((k, place) => {
    const variance = found?.[place * at.length + place];
    if (variance !== undefined && variance > 0) errors[k] = Math.sqrt(variance);
  });
  return errors;
}

/**
 * Logistic regression with a normal effect of the brood, integrated out by Laplace's approximation.
 *
 * Source: Breslow NE & Clayton DG (1993) J Am Stat Assoc 88:9-25.
 */
export function fitLogitNormal(counts: BroodCounts): CountFit {
  expectCounts(counts);
  const { successes, totals, columns } = counts;
  const ways = successes.reduce((sum, k, brood) => sum + logChoose(totals[brood]!, k), 0);
  const height = (x: Float64Array): number => {
    const variance = Math.exp(2 * x[columns.length]!);
    return successes.reduce(
      (sum, k, brood) => sum + laplace(k, totals[brood]!, etaOf(columns, x, brood), variance),
      0,
    );
  };
  const all = columns.map((_, k) => k);
  const start = startOf(counts, 'logit', all);
  const top = maximise(height, [...start, Math.log(0.3)]);
  return {
    effects: [...top.at.slice(0, columns.length)],
    standardErrors: errorsOf(top, columns.length, all),
    spread: Math.exp(top.at[columns.length]!),
    logLikelihood: top.value + ways,
  };
}

/** ln of the integral of binomial times normal, by its mode and curvature. */
function laplace(k: number, n: number, eta: number, variance: number): number {
  let u = 0;
  for (let step = 0; step < 100; step++) {
    const p = 1 / (1 + Math.exp(-(eta + u)));
    const change = (k - n * p - u / variance) / (n * p * (1 - p) + 1 / variance);
    u += change;
    if (Math.abs(change) < 1e-13) break;
  }
  const p = 1 / (1 + Math.exp(-(eta + u)));
  return (
    k * Math.log(p) +
    (n - k) * Math.log1p(-p) -
    (u * u) / (2 * variance) -
    0.5 * Math.log(variance * n * p * (1 - p) + 1)
  );
}
