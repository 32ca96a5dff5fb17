import {
  divideFractions,
  fractionToNumber,
  sumFractions,
  toFraction,
  type Fraction,
  type FractionInput,
} from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import { chiSquareUpperTail } from './chi-square.js';
import { checkCounts } from './counts.js';
import { logMultinomial, outcomeCount, TIE, visitOutcomes } from './multinomial.js';
import { sampledMultinomial } from './sampled-multinomial.js';

export interface FitOptions {
  readonly labels?: readonly string[];
  /** Classes are pooled until each expects this many; 5 by default (Cochran 1954). */
  readonly minimumExpected?: number;
  /** Parameters of the hypothesis that were estimated from these very counts; each costs a degree of freedom. */
  readonly fittedParameters?: number;
  /** The exact test is used up to this many possible outcomes. */
  readonly exactLimit?: number;
  /** Number of fish scored; must equal the sum of the classes. */
  readonly scored?: number;
}

export interface FitStatistic {
  readonly statistic: number;
  readonly df: number;
  readonly pValue: number;
}

export interface FitCell {
  readonly label: string;
  readonly observed: number;
  readonly expected: number;
  readonly probability: Fraction;
  /** (O - E)^2 / E of the class before pooling. */
  readonly contribution: number;
}

export type FitVerdict = 'impossible' | 'poor' | 'doubtful' | 'agrees';

export interface FitResult {
  readonly total: number;
  /** Which test gave `pValue`. */
  readonly method: 'exact' | 'chi-square' | 'sampled' | 'impossible';
  readonly pValue: number;
  /** Of `pValue` where it was sampled; null otherwise. */
  readonly standardError: number | null;
  /** `impossible`: a class was seen that the hypothesis excludes; `poor` below 0.01, `doubtful` below 0.05. */
  readonly verdict: FitVerdict;
  readonly cells: readonly FitCell[];
  readonly exact: { readonly pValue: number; readonly outcomes: number } | null;
  /** After pooling; null when fewer than two classes remain. */
  readonly chiSquare: FitStatistic | null;
  readonly g: FitStatistic | null;
  /** Classes put together for chi-square and G. */
  readonly pooled: readonly { readonly label: string; readonly from: readonly string[] }[];
  readonly notes: readonly string[];
}

/** Ratio or probabilities, as exact shares of 1. Throws `PROBABILITY_OUT_OF_RANGE`, `CLASSES_MISMATCH`. */
export function sharesOf(expected: readonly FractionInput[], classes: number): Fraction[] {
  if (expected.length !== classes || classes < 2) {
    throw new HeredityError(
      'CLASSES_MISMATCH',
      `${String(classes)} classes were counted and ${String(expected.length)} are expected; both must be the same, two or more.`,
      { counted: classes, expected: expected.length },
    );
  }
  const parts = expected.map(toFraction);
  const total = sumFractions(parts);
  if (parts.some((part) => part.numerator < 0n) || total.numerator === 0n) {
    throw new HeredityError(
      'PROBABILITY_OUT_OF_RANGE',
      'Expected shares cannot be negative, nor all be zero.',
      { expected: expected.map(String) },
    );
  }
  return parts.map((part) => divideFractions(part, total));
}

const MOST_EXACT = 1_000_000;
const MOST_EXACT_CLASSES = 100;

/**
 * Exact multinomial test: the summed probability of all outcomes no more likely than the observed one.
 * Cost: the number of possible outcomes.
 */
export function exactMultinomial(
  observed: readonly number[],
  probabilities: readonly number[],
): { pValue: number; outcomes: number } {
  const kept = probabilities.flatMap((p, i) => (p > 0 ? [i] : []));
  const p = kept.map((i) => probabilities[i] ?? 0);
  const counts = kept.map((i) => observed[i] ?? 0);
  const total = counts.reduce((a, b) => a + b, 0);
  const limit = logMultinomial(counts, p) + Math.log1p(TIE);
  let sum = 0;
  let outcomes = 0;
  visitOutcomes(total, p, (log) => {
    outcomes++;
    if (log <= limit) sum += Math.exp(log);
  });
  return { pValue: Math.min(1, sum), outcomes };
}

interface Pool {
  readonly members: readonly number[];
  readonly observed: number;
  readonly expected: number;
}

function poolSmall(
  observed: readonly number[],
  expected: readonly number[],
  minimum: number,
): Pool[] {
  const pools: Pool[] = observed
    .map((count, i) => ({ members: [i], observed: count, expected: expected[i] ?? 0 }))
    .sort((a, b) => a.expected - b.expected);
  for (;;) {
    const [first, second] = pools;
    if (!first || !second || first.expected >= minimum) break;
    const both = {
      members: [...first.members, ...second.members].sort((a, b) => a - b),
      observed: first.observed + second.observed,
      expected: first.expected + second.expected,
    };
    pools.splice(0, 2);
    const place = pools.findIndex((one) => one.expected > both.expected);
    pools.splice(place < 0 ? pools.length : place, 0, both);
  }
  return pools.sort((a, b) => (a.members[0] ?? 0) - (b.members[0] ?? 0));
}

/** Pearson's X² and the likelihood-ratio G of classes against expected numbers, without any pooling. */
export function fitStatistics(
  observed: readonly number[],
  expected: readonly number[],
): { chiSquare: number; g: number } {
  let chiSquare = 0;
  let g = 0;
  observed.forEach((count, i) => {
    const e = expected[i] ?? 0;
    chiSquare += e > 0 ? (count - e) ** 2 / e : count > 0 ? Infinity : 0;
    if (count > 0) g += 2 * count * Math.log(count / e);
  });
  return { chiSquare, g: Math.max(0, g) };
}

interface Tests extends Pick<FitResult, 'exact' | 'chiSquare' | 'g' | 'pooled'> {
  readonly sampled: ReturnType<typeof sampledMultinomial> | null;
}

/** Every test that can be afforded, of cells that the hypothesis allows. */
function testsOf(cells: readonly FitCell[], total: number, options: FitOptions): Tests {
  const possible = cells.filter((cell) => cell.probability.numerator > 0n);
  const pools = poolSmall(
    possible.map((cell) => cell.observed),
    possible.map((cell) => cell.expected),
    options.minimumExpected ?? 5,
  );
  const df = pools.length - 1 - (options.fittedParameters ?? 0);
  const statistics = fitStatistics(
    pools.map((pool) => pool.observed),
    pools.map((pool) => pool.expected),
  );
  const tested = (statistic: number): FitStatistic | null =>
    df < 1 ? null : { statistic, df, pValue: chiSquareUpperTail(statistic, df) };
  const affordable =
    possible.length <= MOST_EXACT_CLASSES &&
    outcomeCount(total, possible.length) <= Math.min(options.exactLimit ?? 200_000, MOST_EXACT);
  const counts = cells.map((cell) => cell.observed);
  const probabilities = cells.map((cell) => fractionToNumber(cell.probability));
  const chiSquare = tested(statistics.chiSquare);
  const exact = affordable ? exactMultinomial(counts, probabilities) : null;
  return {
    exact,
    chiSquare,
    g: tested(statistics.g),
    // With all classes pooled into one there is no chi-square to fall back on.
    sampled: exact || chiSquare ? null : sampledMultinomial(counts, probabilities),
    pooled: pools
      .filter((pool) => pool.members.length > 1)
      .map((pool) => {
        const from = pool.members.map((m) => possible[m]?.label ?? '');
        return { label: from.join(' + '), from };
      }),
  };
}

/** What is told where classes were seen that the hypothesis excludes. */
function impossibleFit(
  total: number,
  cells: readonly FitCell[],
  excluded: readonly FitCell[],
): FitResult {
  const names = excluded.map((cell) => cell.label).join(', ');
  return {
    total,
    method: 'impossible',
    pValue: 0,
    standardError: null,
    verdict: 'impossible',
    cells,
    exact: { pValue: 0, outcomes: 0 },
    chiSquare: null,
    g: null,
    pooled: [],
    notes: [
      `The hypothesis allows no ${names}, yet ${names} was seen: check the score, the parents and the hypothesis.`,
    ],
  };
}

function verdictOf(pValue: number): FitVerdict {
  return pValue < 0.01 ? 'poor' : pValue < 0.05 ? 'doubtful' : 'agrees';
}

function notesOn(cells: readonly FitCell[], total: number, { pooled, sampled }: Tests): string[] {
  const notes: string[] = [];
  if (total === 100 && cells.every(({ observed }) => observed % 5 === 0)) {
    notes.push(
      'Round numbers that add up to 100: make sure these are counts of fish, not percentages.',
    );
  }
  if (pooled.length > 0) {
    notes.push(
      'Classes expecting too few fish were put together for chi-square and G; the exact test is not affected.',
    );
  }
  if (sampled) {
    notes.push(
      `Too many outcomes to go through: p was found from ${sampled.draws.toLocaleString('en')} broods drawn at random under the expectation, the same ones each time.`,
    );
  }
  return notes;
}

/**
 * Tests whether counts agree with expected shares.
 *
 * Exact multinomial test by summing outcomes no more likely than the one seen, as long as the number of outcomes allows
 * (`exactLimit`, 200,000, at most a million; 100 classes); Pearson's chi-square (1900) with classes pooled and degrees of
 * freedom stated beyond that; where all classes pool into one, broods drawn at random under the expectation
 * ({@link sampledMultinomial}). Both statistics, and G, are given whenever they can be computed.
 *
 * @param observed fish in each class: whole numbers, never percentages.
 * @param expected probabilities, or a ratio such as `[9, 3, 3, 1]`.
 * @throws HeredityError `COUNT_*`, `CLASSES_MISMATCH`, `PROBABILITY_OUT_OF_RANGE`, `ARGUMENT_INVALID` (no fish, or
 * no degree of freedom left), `TOO_LARGE` (over a million fish, over 2,000 classes).
 * Cost: the number of possible outcomes for the exact test, else the number of classes; 10,000 drawn broods at most.
 * @example goodnessOfFit([5474, 1850], [3, 1]).chiSquare.statistic // 0.263 (Mendel 1866, round and wrinkled)
 */
export function goodnessOfFit(
  observed: readonly number[],
  expected: readonly FractionInput[],
  options: FitOptions = {},
): FitResult {
  const total = checkCounts(observed, options);
  const shares = sharesOf(expected, observed.length);
  if (total === 0)
    throw new HeredityError(
      'ARGUMENT_INVALID',
      'No fish were counted, so there is nothing to test.',
    );
  const cells = observed.map((count, i): FitCell => {
    const probability = shares[i] ?? { numerator: 0n, denominator: 1n };
    const e = fractionToNumber(probability) * total;
    return {
      label: options.labels?.[i] ?? `class ${String(i + 1)}`,
      observed: count,
      expected: e,
      probability,
      contribution: e > 0 ? (count - e) ** 2 / e : count > 0 ? Infinity : 0,
    };
  });
  const excluded = cells.filter((cell) => cell.expected === 0 && cell.observed > 0);
  if (excluded.length > 0) return impossibleFit(total, cells, excluded);
  const tests = testsOf(cells, total, options);
  const { exact, chiSquare, sampled } = tests;
  const pValue = exact?.pValue ?? chiSquare?.pValue ?? sampled?.pValue ?? 1;
  return {
    total,
    method: exact ? 'exact' : chiSquare ? 'chi-square' : 'sampled',
    pValue,
    standardError: sampled?.standardError ?? null,
    verdict: verdictOf(pValue),
    cells,
    exact,
    chiSquare,
    g: tests.g,
    pooled: tests.pooled,
    notes: notesOn(cells, total, tests),
  };
}
