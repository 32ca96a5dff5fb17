import { fractionToNumber, toProbability, type FractionInput } from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import { assertAtMost } from '../limits.js';
import { binomialProbabilities } from './binomial.js';
import { checkCounts } from './counts.js';
import { goodnessOfFit, sharesOf, type FitResult } from './goodness-of-fit.js';
import { logMultinomial } from './multinomial.js';

export interface Hypothesis {
  /** For example "one recessive locus". */
  readonly name: string;
  /** Shares or ratio of the classes, in the order of the counts. */
  readonly expected: readonly FractionInput[];
}

export interface RankedHypothesis {
  readonly name: string;
  readonly logLikelihood: number;
  /** How many times less likely it makes the counts than the best one does; Infinity when it excludes them. */
  readonly timesLessLikely: number;
  /** Share of belief when all were thought equally likely before. */
  readonly weight: number;
  readonly fit: FitResult;
}

export interface HypothesisComparison {
  /** Best first. */
  readonly ranked: readonly RankedHypothesis[];
  readonly verdict: string;
}

const CLEAR = 20;
const MOST_RIVALS = 100;

function verdictOn(ranked: readonly RankedHypothesis[]): string {
  const [best, second] = ranked;
  if (!best) return '';
  if (best.logLikelihood === -Infinity) return 'None of these can have given such a brood.';
  const poor =
    best.fit.verdict === 'poor'
      ? ' Yet even the best of them fits poorly: the true explanation may not be on the list.'
      : '';
  if (!second || second.timesLessLikely === Infinity) {
    return `Only "${best.name}" can have given these counts.${poor}`;
  }
  const times =
    second.timesLessLikely < 10
      ? second.timesLessLikely.toFixed(1)
      : String(Math.round(second.timesLessLikely));
  const head =
    second.timesLessLikely >= CLEAR
      ? `The counts clearly favour "${best.name}": it makes them ${times} times as likely as "${second.name}" does.`
      : second.timesLessLikely >= 3
        ? `The counts lean to "${best.name}" (${times} times as likely as under "${second.name}"), but do not settle it.`
        : `The counts do not tell "${best.name}" from "${second.name}" (${times} to 1): score more fish, if there are any; every fry raised needs a home.`;
  return head + poor;
}

/**
 * Compares explanations of one brood by the likelihood they give its counts (multinomial). Weights take all of them as
 * equally likely beforehand.
 *
 * @throws HeredityError as `goodnessOfFit`; `ARGUMENT_INVALID` without a hypothesis.
 * @example
 * compareHypotheses([74, 22], [{ name: 'one recessive', expected: [3, 1] }, { name: 'two recessives', expected: [9, 7] }])
 */
export function compareHypotheses(
  observed: readonly number[],
  hypotheses: readonly Hypothesis[],
): HypothesisComparison {
  checkCounts(observed);
  if (hypotheses.length === 0)
    throw new HeredityError('ARGUMENT_INVALID', 'Give at least one hypothesis to compare.');
  assertAtMost(hypotheses.length, MOST_RIVALS, 'hypotheses', 'Remove the least likely.');
  const scored = hypotheses.map(({ name, expected }) => ({
    name,
    fit: goodnessOfFit(observed, expected),
    logLikelihood: logMultinomial(
      observed,
      sharesOf(expected, observed.length).map(fractionToNumber),
    ),
  }));
  const best = Math.max(...scored.map((one) => one.logLikelihood));
  const relative = (log: number) => (best === -Infinity ? 0 : Math.exp(log - best));
  const sum = scored.reduce((total, one) => total + relative(one.logLikelihood), 0);
  const ranked = scored
    .map((one) => ({
      ...one,
      timesLessLikely: relative(one.logLikelihood) > 0 ? 1 / relative(one.logLikelihood) : Infinity,
      weight: sum > 0 ? relative(one.logLikelihood) / sum : 0,
    }))
    .sort((a, b) => b.logLikelihood - a.logLikelihood);
  return { ranked, verdict: verdictOn(ranked) };
}

export interface TellingNumber {
  /** Smallest brood in which both errors can be kept down. */
  readonly fry: number;
  /** From this brood size on every size does (the errors jump as the cut does); looked at up to 50 fish further. */
  readonly steadyFrom: number;
  /** With at least this many fish of the class in a brood of `fry`, believe the higher share. */
  readonly cut: number;
  /** Chance of wrongly believing the higher share, and the lower one. */
  readonly errors: readonly [number, number];
}

function bestCut(
  n: number,
  low: number,
  high: number,
  error: number,
): { cut: number; errors: [number, number] } | null {
  const underLow = binomialProbabilities(n, low);
  const underHigh = binomialProbabilities(n, high);
  let upper = 0;
  let cut = n + 1;
  while (cut > 0 && upper + (underLow[cut - 1] ?? 0) <= error) {
    cut--;
    upper += underLow[cut] ?? 0;
  }
  let lower = 0;
  for (let x = 0; x < cut; x++) lower += underHigh[x] ?? 0;
  return lower <= error ? { cut, errors: [upper, lower] } : null;
}

/** By a rough bound that is a good deal above the answer. */
const MOST_TO_TELL = 4_000;

/**
 * How many fry tell two shares of one class apart, such as 3/4 (3:1) from 9/16 (9:7): the smallest brood with a cut for
 * which each hypothesis is wrongly rejected with at most the stated chance. Exact binomial tails.
 *
 * @throws HeredityError `PROBABILITY_OUT_OF_RANGE`, `ARGUMENT_INVALID` when the shares are equal or too close (some 4,000 fry or more).
 * Cost: about n² / 2 steps for an answer of n.
 */
export function fryToTell(
  first: FractionInput,
  second: FractionInput,
  options: { readonly error?: FractionInput } = {},
): TellingNumber {
  const a = fractionToNumber(toProbability(first));
  const b = fractionToNumber(toProbability(second));
  const error = fractionToNumber(toProbability(options.error ?? 0.05, 'error'));
  const [low, high] = a < b ? [a, b] : [b, a];
  if (low === high || error <= 0 || error >= 0.5) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      'Two different shares are needed, and an error between 0 and 1/2.',
      { first: a, second: b, error },
    );
  }
  const spread = Math.sqrt(low * (1 - low)) + Math.sqrt(high * (1 - high));
  const rough = (Math.sqrt(-2 * Math.log(error)) * spread) / (high - low);
  if (rough ** 2 > MOST_TO_TELL) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `Shares of ${String(low)} and ${String(high)} are too close to distinguish with any practical number of fry: it takes some ${String(Math.ceil(rough ** 2 / 1000))},000.`,
      { first: a, second: b },
    );
  }
  let fry = 0;
  let found: ReturnType<typeof bestCut> = null;
  let steadyFrom = 0;
  for (let n = 1, run = 0; run <= 50; n++) {
    const here = bestCut(n, low, high, error);
    if (here && !found) {
      found = here;
      fry = n;
    }
    if (here && run === 0) steadyFrom = n;
    run = here ? run + 1 : 0;
  }
  return { fry, steadyFrom, cut: found?.cut ?? 0, errors: found?.errors ?? [1, 1] };
}
