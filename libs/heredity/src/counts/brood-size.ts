import {
  fractionToNumber,
  ONE,
  toProbability,
  type Fraction,
  type FractionInput,
} from '../fraction.js';
import { HeredityError } from '../heredity-error.js';

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

function componentsOf(share: ClassShare, survival: Fraction): Component[] {
  const scale = fractionToNumber(survival);
  if (!Array.isArray(share)) {
    const p = toProbability(share as FractionInput, 'share of the class');
    return [{ weight: 1, p: fractionToNumber(p) * scale }];
  }
  const list = (share as Exclude<ClassShare, FractionInput>).map((one) => ({
    weight: fractionToNumber(toProbability(one.weight, 'weight')),
    p: fractionToNumber(toProbability(one.probability, 'share of the class')) * scale,
  }));
  const total = list.reduce((sum, one) => sum + one.weight, 0);
  if (Math.abs(total - 1) > 1e-9) {
    throw new HeredityError(
      'PROBABILITIES_NOT_ONE',
      `The weights sum to ${String(total)}, not 1.`,
      { sum: total },
    );
  }
  return list;
}

/** P(X < k) for X binomial(n, p): its k lowest terms, in logarithms so that large n does not underflow. */
function chanceBelow(n: number, p: number, k: number): number {
  if (k > n) return 1;
  if (p <= 0) return 1;
  if (p >= 1) return 0;
  const odds = Math.log(p) - Math.log1p(-p);
  let log = n * Math.log1p(-p);
  let sum = Math.exp(log);
  for (let x = 0; x < k - 1; x++) {
    log += Math.log((n - x) / (x + 1)) + odds;
    sum += Math.exp(log);
  }
  return Math.min(1, sum);
}

const chance = (components: readonly Component[], n: number, k: number) =>
  components.reduce((sum, { weight, p }) => sum + weight * (1 - chanceBelow(n, p, k)), 0);

function wantedNumber(atLeast: number): number {
  if (!Number.isInteger(atLeast) || atLeast < 1) {
    throw new HeredityError(
      atLeast < 0 ? 'COUNT_NEGATIVE' : 'COUNT_NOT_WHOLE',
      `The number of fish wanted must be a whole number from 1, not ${String(atLeast)}.`,
      { value: atLeast },
    );
  }
  return atLeast;
}

/**
 * Chance that `fry` young hold at least `atLeast` fish of a class that live to be told: the upper binomial tail, averaged
 * over uncertain parents. Throws `PROBABILITY_OUT_OF_RANGE`, `COUNT_NOT_WHOLE`, `COUNT_NEGATIVE`.
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
  const survival = toProbability(input.survival ?? ONE, 'survival');
  return chance(componentsOf(input.probability, survival), input.fry, wantedNumber(input.atLeast));
}

// A certainty reached exactly, such as 1/2 at a share of 1/2, must not be missed by a rounding.
const ROUNDING = 1e-12;
const MOST_FRY = 1e9;

/**
 * How many fry to raise to have at least `atLeast` of a class with the wanted certainty.
 *
 * The smallest n with P(X >= k) >= certainty, X binomial(n, share × survival). For uncertain parents the chance is
 * averaged over what they may be; the certainty can then be out of reach whatever the number.
 *
 * @throws HeredityError `BROOD_SIZE_UNREACHABLE`, `PROBABILITY_OUT_OF_RANGE`, `PROBABILITIES_NOT_ONE`, `COUNT_NOT_WHOLE`.
 * Cost: about 2 log2(n) sums of k terms.
 * @example broodSizePlan({ probability: '1/4', certainty: 0.95 }).fry // 11
 */
export function broodSizePlan(input: BroodSizeInput): BroodSizePlan {
  const k = wantedNumber(input.atLeast ?? 1);
  const certainty = fractionToNumber(toProbability(input.certainty, 'certainty'));
  const survival = toProbability(input.survival ?? ONE, 'survival');
  const components = componentsOf(input.probability, survival);
  const reachable = components.reduce((sum, { weight, p }) => sum + (p > 0 ? weight : 0), 0);
  const surely = components.every(({ weight, p }) => weight === 0 || p >= 1);
  if (reachable < certainty - ROUNDING || (certainty >= 1 && !surely)) {
    throw new HeredityError(
      'BROOD_SIZE_UNREACHABLE',
      reachable === 0
        ? 'No number of fry gives the class: its share of the living young is 0.'
        : `No number of fry gives the class with a certainty of ${String(certainty)}: the most that can be reached is ${surely ? '1' : `just under ${String(reachable)}`}.`,
      { certainty, reachable },
    );
  }
  const enough = (n: number) => chance(components, n, k) >= certainty - ROUNDING;
  let high = k;
  while (!enough(high)) {
    if (high > MOST_FRY) {
      throw new HeredityError(
        'BROOD_SIZE_UNREACHABLE',
        `More than ${String(MOST_FRY)} fry would be needed.`,
        { certainty, reachable },
      );
    }
    high *= 2;
  }
  let low = k - 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (enough(middle)) high = middle;
    else low = middle;
  }
  const only = components.length === 1 ? components[0]?.p : undefined;
  return {
    fry: high,
    certaintyReached: chance(components, high, k),
    unrounded:
      k === 1 && only !== undefined && only > 0 && only < 1
        ? Math.log1p(-certainty) / Math.log1p(-only)
        : null,
    effectiveProbability: components.reduce((sum, { weight, p }) => sum + weight * p, 0),
  };
}

/** The number alone: {@link broodSizePlan}`(input).fry`. */
export function broodSizeFor(input: BroodSizeInput): number {
  return broodSizePlan(input).fry;
}
