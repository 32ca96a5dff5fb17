import { GrowingFactor } from '../contributions/growing-factor.js';
import { MatingError } from '../mating-error.js';

/** One answer, or several alike: of two fish, which one would rather be bred from. */
export interface Answer {
  /** What the chosen fish has more than the other, one figure for each thing compared. */
  readonly difference: readonly number[];
  /** How often it was answered so; 1 when left out. */
  readonly times?: number;
}

/** What is taken as likely before any answer: normal, each thing by itself. */
export interface Expected {
  readonly means: readonly number[];
  /** Standard deviation, the same for all; `Infinity` takes nothing as likely. */
  readonly spread: number;
}

export interface FittedAnswers {
  /** Log-odds of being chosen for one unit more of each thing. */
  readonly estimates: readonly number[];
  readonly errors: readonly number[];
  /** Covariance of the estimates, row by row. */
  readonly covariance: readonly (readonly number[])[];
}

const MOST_STEPS = 100;
const CLOSE = 1e-10;

/**
 * Fits answers to "which of the two?": the log-odds of a choice are a sum over the differences of the two (a logistic regression without a
 * constant). With one thing for each of the compared, this is the model of Bradley & Terry (1952). The most likely estimates given the
 * answers and what was expected, by Newton's steps, halved while they do not rise; errors from the curvature there.
 *
 * Source: Bradley RA & Terry ME (1952) Biometrika 39:324-345; Agresti A (2002) Categorical Data Analysis, 2nd ed., section 10.6.
 *
 * Throws `MatingError` with code `MATING_BAD_ANSWERS` for figures that are none, and where nothing is expected and the answers leave an
 * estimate without bounds.
 *
 * Cost: answers x things^2 a step, a handful of steps.
 */
export function fitAnswers(answers: readonly Answer[], expected: Expected): FittedAnswers {
  check(answers, expected);
  let estimates: Float64Array = Float64Array.from(expected.means);
  let height = heightAt(estimates, answers, expected);
  for (let step = 0; step < MOST_STEPS; step++) {
    const { slope, factor } = curveAt(estimates, answers, expected);
    const direction = factor.solve(Float64Array.from(slope));
    let share = 1;
    let next = moved(estimates, direction, share);
    let rise = heightAt(next, answers, expected) - height;
    while (!(rise >= -1e-12) && share > 1e-6) {
      share /= 2;
      next = moved(estimates, direction, share);
      rise = heightAt(next, answers, expected) - height;
    }
    estimates = next;
    height += rise;
    if (Math.max(0, ...direction.map(Math.abs)) < CLOSE)
      return fitted(estimates, answers, expected);
  }
  return unbounded();
}

function fitted(at: Float64Array, answers: readonly Answer[], expected: Expected): FittedAnswers {
  const { factor } = curveAt(at, answers, expected);
  const covariance = Array.from(at, (_, j) => {
    const unit = new Float64Array(at.length);
    unit[j] = 1;
    return [...factor.solve(unit)];
  });
  const errors = covariance.map((row, j) => Math.sqrt(row[j] ?? 0));
  return { estimates: [...at], errors, covariance };
}

const moved = (from: Float64Array, direction: Float64Array, share: number): Float64Array =>
  from.map((value, j) => value + share * (direction[j] ?? 0));

const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0;
  for (let j = 0; j < a.length; j++) sum += (a[j] ?? 0) * (b[j] ?? 0);
  return sum;
};

/** ln(1 + e^x) where e^x may be too large for a number. */
const softplus = (x: number): number => Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));

/** How likely the answers and the estimates are together: its logarithm, without constants. */
function heightAt(
  at: Float64Array,
  answers: readonly Answer[],
  { means, spread }: Expected,
): number {
  let height = 0;
  for (const { difference, times = 1 } of answers) height -= times * softplus(-dot(difference, at));
  at.forEach((value, j) => {
    height -= ((value - (means[j] ?? 0)) / spread) ** 2 / 2;
  });
  return height;
}

function curveAt(at: Float64Array, answers: readonly Answer[], { means, spread }: Expected) {
  const size = at.length;
  const slope = at.map((value, j) => ((means[j] ?? 0) - value) / spread ** 2);
  const curve = Array.from({ length: size }, (_, j) =>
    Array.from({ length: size }, (_, k) => (j === k ? 1 / spread ** 2 : 0)),
  );
  for (const { difference, times = 1 } of answers) {
    const surprise = 1 / (1 + Math.exp(dot(difference, at)));
    const weight = times * surprise * (1 - surprise);
    for (let j = 0; j < size; j++) {
      const own = difference[j] ?? 0;
      slope[j] = (slope[j] ?? 0) + times * surprise * own;
      const row = curve[j]!;
      for (let k = 0; k <= j; k++) row[k] = (row[k] ?? 0) + weight * own * (difference[k] ?? 0);
    }
  }
  const factor = new GrowingFactor();
  curve.forEach((row, j) => {
    const diagonal = row[j] ?? 0;
    if (!factor.append(row, diagonal, 1e-12 * diagonal)) unbounded();
  });
  return { slope, factor };
}

function check(answers: readonly Answer[], { means, spread }: Expected): void {
  if (!(spread > 0)) refuse('spread', spread, 'above 0');
  const figures = [...means, ...answers.flatMap(({ difference }) => difference)];
  const wrong = figures.find((figure) => !Number.isFinite(figure));
  if (wrong !== undefined) refuse('difference', wrong, 'a number');
  for (const { difference, times = 1 } of answers) {
    if (difference.length !== means.length)
      refuse('difference', difference.length, `${String(means.length)} figures long`);
    if (!(Number.isFinite(times) && times >= 0)) refuse('times', times, '0 or more');
  }
}

function refuse(name: string, value: number, wanted: string): never {
  throw new MatingError(
    'MATING_BAD_ANSWERS',
    name,
    `Answers about two fish: ${name} is ${String(value)}; it must be ${wanted}.`,
  );
}

function unbounded(): never {
  throw new MatingError(
    'MATING_BAD_ANSWERS',
    'spread',
    'The answers leave something without bounds, since all of them say the same or none speaks of it: state what is expected, or answer more.',
  );
}
