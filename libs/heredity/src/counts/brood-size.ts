import {
  compareFractions,
  divideFractions,
  formatFraction,
  fractionToNumber,
  multiplyFractions,
  ONE,
  subtractFractions,
  sumFractions,
  toProbability,
  type Fraction,
  type FractionInput,
} from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import { assertAtMost, MOST } from '../limits.js';
import { binomialTails, type Work } from './binomial-mass.js';

/** The share of a class, or, for uncertain parents, what it may be with which weight. */
export type ClassShare =
  | FractionInput
  | readonly { readonly weight: FractionInput; readonly probability: FractionInput }[];

export interface BroodSizeInput {
  readonly probability: ClassShare;
  /** How many of the class are wanted; 1 by default. */
  readonly atLeast?: number;
  /** How sure one wants to be, below 1. */
  readonly certainty: FractionInput;
  /** Share of fry that live to the age at which the class can be told; 1 by default. */
  readonly survival?: FractionInput;
}

export interface BroodSizePlan {
  /** Fry to start with. */
  readonly fry: number;
  /** Chance of at least the wanted number with that many. */
  readonly certaintyReached: number;
  /** For one fish of one known share: ln(1 - certainty) / ln(1 - share), before rounding up. */
  readonly unrounded: number | null;
  /** Share of the class times survival, averaged over what is uncertain. */
  readonly effectiveProbability: number;
}

interface Component {
  readonly weight: number;
  readonly p: number;
}

/** What the share may be, and how certain the class can become at most. */
interface Reading {
  readonly components: readonly Component[];
  /** The certainty that no number of fry surpasses: the weight of what can give the class at all. */
  readonly most: Fraction;
  /** Whether that certainty is reached, as where all young are of the class, or only come near to. */
  readonly attained: boolean;
  /** False where the weights are doubles that miss 1 by rounding. */
  readonly exact: boolean;
}

function readShare(share: ClassShare, survival: Fraction): Reading {
  const list = Array.isArray(share)
    ? (share as Exclude<ClassShare, FractionInput>)
    : [{ weight: ONE, probability: share as FractionInput }];
  assertAtMost(
    list.length,
    MOST.possiblePairs,
    'possible shares of the class',
    'Use fewer uncertain loci.',
  );
  const scale = fractionToNumber(survival);
  const read = list.map((one) => ({
    weight: toProbability(one.weight, 'weight'),
    p: toProbability(one.probability, 'share of the class'),
  }));
  const total = sumFractions(read.map((one) => one.weight));
  if (Math.abs(fractionToNumber(total) - 1) > 1e-9) {
    throw new HeredityError(
      'PROBABILITIES_NOT_ONE',
      `The weights sum to ${String(fractionToNumber(total))}, not 1.`,
      { sum: fractionToNumber(total) },
    );
  }
  const counting = read.filter((one) => one.weight.numerator > 0n);
  const giving = counting.filter((one) => one.p.numerator > 0n && survival.numerator > 0n);
  const merged = new Map<string, Component>();
  for (const { weight, p } of counting) {
    const key = formatFraction(p);
    const before = merged.get(key)?.weight ?? 0;
    const own = fractionToNumber(divideFractions(weight, total));
    merged.set(key, { weight: before + own, p: fractionToNumber(p) * scale });
  }
  return {
    components: [...merged.values()],
    most: divideFractions(sumFractions(giving.map((one) => one.weight)), total),
    attained: giving.every(
      (one) => compareFractions(multiplyFractions(one.p, survival), ONE) === 0,
    ),
    exact: compareFractions(total, ONE) === 0,
  };
}

const chance = (components: readonly Component[], n: number, k: number, work?: Work) =>
  components.reduce((sum, { weight, p }) => sum + weight * binomialTails(n, p, k, work).reached, 0);

const chanceBelow = (components: readonly Component[], n: number, k: number, work?: Work) =>
  components.reduce((sum, { weight, p }) => sum + weight * binomialTails(n, p, k, work).below, 0);

function wantedNumber(atLeast: number): number {
  if (!Number.isInteger(atLeast) || atLeast < 1) {
    throw new HeredityError(
      atLeast < 0 ? 'COUNT_NEGATIVE' : 'COUNT_NOT_WHOLE',
      `The number of fish wanted must be a whole number from 1, not ${String(atLeast)}.`,
      { value: atLeast },
    );
  }
  assertAtMost(
    atLeast,
    MOST.wanted,
    'fish of the class wanted',
    'Ask for a number that one brood may hold.',
  );
  return atLeast;
}

/**
 * Chance that `fry` young hold at least `atLeast` fish of a class that live to be told: the upper binomial tail, averaged
 * over uncertain parents. Throws `PROBABILITY_OUT_OF_RANGE`, `COUNT_NOT_WHOLE`, `COUNT_NEGATIVE`, `TOO_LARGE`.
 */
export function chanceOfAtLeast(input: {
  readonly probability: ClassShare;
  readonly atLeast: number;
  readonly fry: number;
  readonly survival?: FractionInput;
}): number {
  if (!Number.isInteger(input.fry) || input.fry < 0) {
    throw new HeredityError(
      input.fry < 0 ? 'COUNT_NEGATIVE' : 'COUNT_NOT_WHOLE',
      `A brood has a whole number of fish, not ${String(input.fry)}.`,
    );
  }
  assertAtMost(input.fry, MOST_FRY, 'fry', 'Give a number that may be raised.');
  const survival = toProbability(input.survival ?? ONE, 'survival');
  return chance(
    readShare(input.probability, survival).components,
    input.fry,
    wantedNumber(input.atLeast),
  );
}

const MOST_FRY = 1e9;
/** Doubles that stand for one number differ by less than this after the few hundred steps they have come through. */
const ROUNDING = 1e-9;
/** Up to here a tie is settled by whole numbers. */
const EXACT_TIES = 400;

/** Whether the certainty lies where no number of fry gets to. Nothing within rounding of the limit is promised. */
function isOutOfReach(certainty: Fraction, { most, attained, exact }: Reading): boolean {
  const order = compareFractions(certainty, most);
  if (exact || attained) return order > 0 || (order === 0 && !attained);
  return fractionToNumber(subtractFractions(most, certainty)) < ROUNDING;
}

/** 1 - (1 - p)^n >= certainty, in whole numbers. */
function reachesExactly(p: Fraction, n: number, certainty: Fraction): boolean {
  const missed = subtractFractions(ONE, p);
  const left = subtractFractions(ONE, certainty);
  return (
    missed.numerator ** BigInt(n) * left.denominator <=
    left.numerator * missed.denominator ** BigInt(n)
  );
}

function outOfReach(certainty: Fraction, { most, attained }: Reading): never {
  const reachable = fractionToNumber(most);
  const sure = String(fractionToNumber(certainty));
  const limit = attained ? String(reachable) : `just under ${String(reachable)}`;
  throw new HeredityError(
    'BROOD_SIZE_UNREACHABLE',
    reachable === 0
      ? 'No number of fry gives the class: its share of the living young is 0.'
      : `No number of fry gives the class with a certainty of ${sure}: the most that can be reached is ${limit}.`,
    { certainty: fractionToNumber(certainty), reachable },
  );
}

/** The smallest number from `low` + 1 on that is enough; `enough` must not fall. */
function smallestEnough(low: number, enough: (n: number) => boolean): number | null {
  let below = low;
  let high = low + 1;
  while (!enough(high)) {
    if (high > MOST_FRY) return null;
    below = high;
    high *= 2;
  }
  while (high - below > 1) {
    const middle = Math.floor((below + high) / 2);
    if (enough(middle)) high = middle;
    else below = middle;
  }
  return high;
}

/**
 * How many fry to raise to have at least `atLeast` of a class with the wanted certainty.
 *
 * The smallest n with P(X >= k) >= certainty, X binomial(n, share × survival). For uncertain parents the chance is
 * averaged over what they may be. It then nears the weight of those that can give the class, and reaches it only where all
 * their young are of it: a certainty there or above is refused, whatever the number of fry.
 *
 * @throws HeredityError `BROOD_SIZE_UNREACHABLE`, `PROBABILITY_OUT_OF_RANGE`, `PROBABILITIES_NOT_ONE`, `COUNT_NOT_WHOLE`,
 * `TOO_LARGE` (over 100,000 wanted, over 10,000 possible shares).
 * Cost: about 2 log2(n) sums of some multiple of √k terms, for each share that may be.
 * @example broodSizePlan({ probability: '1/4', certainty: 0.95 }).fry // 11
 */
export function broodSizePlan(input: BroodSizeInput, work?: Work): BroodSizePlan {
  const k = wantedNumber(input.atLeast ?? 1);
  const certainty = toProbability(input.certainty, 'certainty');
  const survival = toProbability(input.survival ?? ONE, 'survival');
  const reading = readShare(input.probability, survival);
  const { components } = reading;
  if (isOutOfReach(certainty, reading)) outOfReach(certainty, reading);
  const left = fractionToNumber(subtractFractions(ONE, certainty));
  const one = Array.isArray(input.probability)
    ? null
    : multiplyFractions(toProbability(input.probability as FractionInput), survival);
  const fry = smallestEnough(k - 1, (n) => {
    const below = chanceBelow(components, n, k, work);
    // A certainty reached exactly, such as 1/2 at a share of 1/2, must neither be missed nor be made up by a rounding.
    const tied = Math.abs(below - left) <= left * ROUNDING;
    if (tied && one && k === 1 && n <= EXACT_TIES) return reachesExactly(one, n, certainty);
    return below <= left * (1 + 1e-12) || reading.attained;
  });
  if (fry === null) {
    throw new HeredityError(
      'BROOD_SIZE_UNREACHABLE',
      `More than ${MOST_FRY.toLocaleString('en')} fry would be needed.`,
      { certainty: fractionToNumber(certainty), reachable: fractionToNumber(reading.most) },
    );
  }
  const only = components.length === 1 ? components[0]?.p : undefined;
  return {
    fry,
    certaintyReached: chance(components, fry, k),
    unrounded:
      k === 1 && only !== undefined && only > 0 && only < 1
        ? Math.log(left) / Math.log1p(-only)
        : null,
    effectiveProbability: components.reduce((sum, { weight, p }) => sum + weight * p, 0),
  };
}

/** The number alone: {@link broodSizePlan}`(input).fry`. */
export function broodSizeFor(input: BroodSizeInput): number {
  return broodSizePlan(input).fry;
}
