import { broodSizePlan, chanceOfAtLeast, HeredityError } from '@linewright/heredity';
import { normalBelow, normalDensity } from '@linewright/merit';
import type { ExpectedYoung } from './expected-young.js';

/** One trait of a standard: what the young are expected to be, and between which scores one passes. */
export interface TraitStandard {
  readonly young: ExpectedYoung;
  /** Least and largest score that pass; `null`: no limit on that side. */
  readonly low: number | null;
  readonly high: number | null;
}

/** A share of the brood, and how likely it is the one. Weights sum to 1. */
export interface PossibleShare {
  readonly weight: number;
  readonly share: number;
}

/** Steps of the sum over what a brood shares, in standard deviations: the error of the sum lies far below the digits shown. */
const STEP = 0.2;
const REACH = 6;
/** Shares kept apart; what lies nearest is put together, its mean kept. */
const MOST_SHARES = 120;

/** Nodes and weights of the normal distribution, by the trapezoid rule. */
const NODES: readonly { readonly z: number; readonly weight: number }[] = (() => {
  const count = Math.round((2 * REACH) / STEP) + 1;
  const raw = Array.from({ length: count }, (_, k) => {
    const z = -REACH + k * STEP;
    return { z, weight: normalDensity(z) };
  });
  const total = raw.reduce((sum, { weight }) => sum + weight, 0);
  return raw.map(({ z, weight }) => ({ z, weight: weight / total }));
})();

/** Chance of a score within limits for a normal score. */
export function chanceWithin(
  mean: number,
  deviation: number,
  low: number | null,
  high: number | null,
): number {
  if (!(deviation > 0))
    return (low === null || mean >= low) && (high === null || mean <= high) ? 1 : 0;
  const below = (limit: number): number => normalBelow((limit - mean) / deviation);
  const upper = high === null ? 1 : below(high);
  return Math.max(0, upper - (low === null ? 0 : below(low)));
}

/**
 * What share of a brood passes a standard: a mixture, because what all young share (their parents' errors, the brood's surroundings) is
 * not known beforehand and decides for all of them at once.
 *
 * Traits are taken as independent of each other and of looks. Each trait's shared part is summed over by quadrature.
 *
 * @param looks the share of young that show all required looks and none that must not be, by what the parents may carry; all of them when
 * left out.
 * Cost: 61 normal tails a trait, and at most 120 x 61 products for each further one.
 */
export function passingShares(
  traits: readonly TraitStandard[],
  looks: readonly PossibleShare[] = [{ weight: 1, share: 1 }],
): PossibleShare[] {
  return traits
    .filter(({ low, high }) => low !== null || high !== null)
    .reduce<PossibleShare[]>((sofar, trait) => together(sofar, ofTrait(trait)), fewer([...looks]));
}

function ofTrait({ young, low, high }: TraitStandard): PossibleShare[] {
  const [shared, own] = [Math.sqrt(young.between), Math.sqrt(young.within)];
  if (shared === 0) return [{ weight: 1, share: chanceWithin(young.mean, own, low, high) }];
  return NODES.map(({ z, weight }) => ({
    weight,
    share: chanceWithin(young.mean + z * shared, own, low, high),
  }));
}

const together = (a: readonly PossibleShare[], b: readonly PossibleShare[]): PossibleShare[] =>
  fewer(
    a.flatMap((one) =>
      b.map((other) => ({ weight: one.weight * other.weight, share: one.share * other.share })),
    ),
  );

/** Puts neighbours together until few are left, by equal parts of the range of shares; the mean share stays as it is. */
function fewer(shares: PossibleShare[]): PossibleShare[] {
  if (shares.length <= MOST_SHARES) return shares;
  const bins = new Map<number, { weight: number; sum: number }>();
  for (const { weight, share } of shares) {
    // The square root keeps small shares apart, which decide over how many fry are needed.
    const bin = Math.floor(Math.sqrt(share) * (MOST_SHARES - 1));
    const known = bins.get(bin) ?? { weight: 0, sum: 0 };
    known.weight += weight;
    known.sum += weight * share;
    bins.set(bin, known);
  }
  return [...bins.values()]
    .filter(({ weight }) => weight > 0)
    .map(({ weight, sum }) => ({ weight, share: Math.min(1, sum / weight) }));
}

/** The mean share of the brood that passes. */
export const meanShare = (shares: readonly PossibleShare[]): number =>
  shares.reduce((sum, { weight, share }) => sum + weight * share, 0);

/**
 * Chance that at least `wanted` young out of `fry` live to be sorted and pass: a binomial chance for each share that may be, averaged. It
 * is the chance that the best `wanted` of the brood all pass.
 *
 * @param survival share of fry that live to sorting, 0 to 1.
 * @throws HeredityError COUNT_NOT_WHOLE, COUNT_NEGATIVE, PROBABILITY_OUT_OF_RANGE, TOO_LARGE.
 */
export function chanceOfPassing(
  shares: readonly PossibleShare[],
  wanted: number,
  fry: number,
  survival: number,
): number {
  const probability = normalised(shares);
  return chanceOfAtLeast({ probability, atLeast: wanted, fry, survival });
}

/** More fry than this nobody raises from one pair: the answer is then that it cannot be reached. */
export const MOST_FRY = 5_000;

/**
 * Fry to raise so that at least `wanted` pass with the chance asked for; `null` when no number up to {@link MOST_FRY} reaches it.
 *
 * @throws HeredityError as {@link chanceOfPassing}.
 */
export function fryToRaise(
  shares: readonly PossibleShare[],
  wanted: number,
  certainty: number,
  survival: number,
): number | null {
  if (chanceOfPassing(shares, wanted, MOST_FRY, survival) < certainty) return null;
  try {
    const plan = broodSizePlan({
      probability: normalised(shares),
      atLeast: wanted,
      certainty,
      survival,
    });
    return plan.fry;
  } catch (error) {
    if (error instanceof HeredityError && error.code === 'BROOD_SIZE_UNREACHABLE') return null;
    throw error;
  }
}

const normalised = (shares: readonly PossibleShare[]) => {
  const total = shares.reduce((sum, { weight }) => sum + weight, 0);
  return shares.map(({ weight, share }) => ({
    weight: weight / total,
    probability: Math.min(1, Math.max(0, share)),
  }));
};
