import { CareError } from '../care-error.js';
import { expectBetween } from '../expect-number.js';
import type { AmmoniaNitrogen } from './ammonia-units.js';
import { type WaterState, unionisedShare } from './unionised.js';

/**
 * Concentration after exchanging a share `p` of the water: C1 = C0 (1 - p) + Cs p, with Cs that of the new water.
 *
 * @throws CareError CARE_OUT_OF_RANGE when the share is not from 0 to 1.
 * @example afterChange(0.8, 0.75, 0) // 0.2
 */
export function afterChange(before: number, share: number, source: number): number {
  expectBetween('The share of water changed', share, 0, 1);
  return before * (1 - share) + source * share;
}

/** `possible: false`: the new water itself holds at least as much as the target. */
export type NeededChange =
  | { readonly possible: true; readonly share: number }
  | { readonly possible: false; readonly because: 'SOURCE_NOT_BELOW_TARGET' };

/**
 * Share of water to exchange at once to come down to a target: p = (C0 - Ct) / (C0 - Cs). 0 when already there.
 *
 * @throws CareError CARE_OUT_OF_RANGE for a negative amount.
 * @example neededChange(0.8, 0.2, 0.1) // { possible: true, share: 0.857 }
 */
export function neededChange(before: number, target: number, source: number): NeededChange {
  for (const [what, value] of [
    ['The amount before', before],
    ['The target', target],
    ['The amount in the new water', source],
  ] as const) {
    expectBetween(what, value, 0, 1_000_000);
  }
  if (before <= target) return { possible: true, share: 0 };
  if (source >= target && !(source === target && target === 0)) {
    return { possible: false, because: 'SOURCE_NOT_BELOW_TARGET' };
  }
  return { possible: true, share: (before - target) / (before - source) };
}

/** After `times` exchanges of a share `p` each: Cs + (C0 - Cs)(1 - p)^n. */
export function afterRepeatedChanges(
  before: number,
  share: number,
  source: number,
  times: number,
): number {
  expectBetween('The share of water changed', share, 0, 1);
  return source + (before - source) * (1 - share) ** times;
}

/**
 * How many exchanges of at most `mostAtOnce` reach what one exchange of `share` would: n = ceil(ln(1 - share) /
 * ln(1 - mostAtOnce)), and the equal share of each, 1 - (1 - share)^(1/n). A whole exchange (`share` 1) is one.
 *
 * @throws CareError CARE_OUT_OF_RANGE when `mostAtOnce` is not above 0 and at most 1.
 * @example splitChange(0.75, 0.5) // { times: 2, each: 0.5 }
 */
export function splitChange(share: number, mostAtOnce: number): { times: number; each: number } {
  expectBetween('The share of water changed', share, 0, 1);
  expectBetween('The most changed at once', mostAtOnce, 0.01, 1);
  if (share <= mostAtOnce) return { times: 1, each: share };
  if (share === 1) return { times: 1, each: 1 };
  // A hair less, so that rounding in the logarithms does not ask for one exchange too many.
  const times = Math.ceil(Math.log(1 - share) / Math.log(1 - mostAtOnce) - 1e-9);
  return { times, each: 1 - (1 - share) ** (1 / times) };
}

export interface SteadyPeak {
  /** Just before each change, mg/L. */
  readonly before: number;
  /** Just after it, mg/L. */
  readonly after: number;
}

/**
 * Where the concentration settles when it rises by `rise` between changes of a share `p`: g/p + Cs before a change and
 * g (1 - p)/p + Cs after it. Assumes the same rise each time and no other removal (no plants, no ripe filter).
 *
 * @throws CareError CARE_OUT_OF_RANGE for a share of 0: without changes it never settles.
 * @example steadyPeak(0.1, 0.5, 0) // { before: 0.2, after: 0.1 }
 */
export function steadyPeak(rise: number, share: number, source: number): SteadyPeak {
  expectBetween('The rise between changes', rise, 0, 1_000_000);
  if (share === 0) {
    throw new CareError(
      'CARE_OUT_OF_RANGE',
      'Without a change of water the amount never settles: give a share above 0.',
      { share },
    );
  }
  expectBetween('The share of water changed', share, 0, 1);
  const before = rise / share + source;
  return { before, after: before - rise };
}

export interface MixedWater {
  readonly total: AmmoniaNitrogen;
  readonly celsius: number;
  /** The higher of both waters' pH: the mix lies at or below it, and this errs on the safe side. */
  readonly pHAtMost: number;
  /** Un-ionised ammonia at that pH, mg/L as N. */
  readonly unionisedAtMost: AmmoniaNitrogen;
}

export interface SourceWater extends WaterState {
  readonly total: AmmoniaNitrogen;
}

/**
 * The water after mixing in a share of new water. Ammonia and temperature mix by volume. pH does not (it depends on
 * what buffers each water), so the un-ionised share is recomputed at the higher pH of the two.
 *
 * @example mix({ total, pH: 7, celsius: 28 }, { total: none, pH: 8, celsius: 22 }, 0.3).celsius // 26.2
 */
export function mix(tank: SourceWater, source: SourceWater, share: number): MixedWater {
  const total = afterChange(tank.total, share, source.total) as AmmoniaNitrogen;
  const celsius = afterChange(tank.celsius, share, source.celsius);
  const pHAtMost = share === 0 ? tank.pH : Math.max(tank.pH, source.pH);
  const unionisedAtMost = (total * unionisedShare({ pH: pHAtMost, celsius })) as AmmoniaNitrogen;
  return { total, celsius, pHAtMost, unionisedAtMost };
}

export interface ChangePlan {
  /** Un-ionised ammonia now, mg/L as N. */
  readonly now: AmmoniaNitrogen;
  readonly limit: AmmoniaNitrogen;
  /** Share to exchange at once; `null` when no exchange with this water comes under the limit. */
  readonly share: number | null;
  readonly after: MixedWater | null;
  readonly warnings: readonly ChangeWarning[];
}

export type ChangeWarning =
  /** The new water's pH is higher: what ammonia is left turns more poisonous. */
  | 'PH_RISES'
  /** The new water is more than 2 degrees warmer or colder. */
  | 'TEMPERATURE_DIFFERS'
  /** More than half the water: better in several steps. */
  | 'LARGE_CHANGE'
  /** No exchange with this water comes under the limit. */
  | 'IMPOSSIBLE';

const STEPS = 1_000;
const DEGREES_APART = 2;
const LARGE = 0.5;

/**
 * Smallest exchange of water that brings un-ionised ammonia to a limit or under it, recomputing the un-ionised share
 * for the mix at each size (see {@link mix}). With the same pH and temperature in both waters it is
 * {@link neededChange}; otherwise it is searched in steps of 0.1 % and narrowed.
 *
 * @throws CareError for values out of range.
 */
export function planChange(
  tank: SourceWater,
  source: SourceWater,
  limit: AmmoniaNitrogen,
): ChangePlan {
  const now = (tank.total * unionisedShare(tank)) as AmmoniaNitrogen;
  const share = smallestShare(tank, source, limit);
  const warnings: ChangeWarning[] = [];
  if (share !== 0 && source.pH > tank.pH) warnings.push('PH_RISES');
  if (share !== 0 && Math.abs(source.celsius - tank.celsius) > DEGREES_APART) {
    warnings.push('TEMPERATURE_DIFFERS');
  }
  if (share === null) warnings.push('IMPOSSIBLE');
  else if (share > LARGE) warnings.push('LARGE_CHANGE');
  return { now, limit, share, after: share === null ? null : mix(tank, source, share), warnings };
}

function smallestShare(tank: SourceWater, source: SourceWater, limit: number): number | null {
  const under = (share: number) => mix(tank, source, share).unionisedAtMost <= limit;
  if (under(0)) return 0;
  let step = 1;
  while (step <= STEPS && !under(step / STEPS)) step += 1;
  if (step > STEPS) return null;
  let low = (step - 1) / STEPS;
  let high = step / STEPS;
  for (let turn = 0; turn < 40; turn += 1) {
    const middle = (low + high) / 2;
    if (under(middle)) high = middle;
    else low = middle;
  }
  return high;
}
