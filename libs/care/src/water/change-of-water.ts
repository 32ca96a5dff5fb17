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
  /** Just after mixing, by volume. */
  readonly celsius: number;
  /** The warmer of that and the vessel before: a heater warms a cooled vessel up again. */
  readonly celsiusAtMost: number;
  /** The higher of both waters' pH: see {@link mix}. */
  readonly pHAtMost: number;
  /** Un-ionised ammonia at that pH and temperature, mg/L as N. */
  readonly unionisedAtMost: AmmoniaNitrogen;
}

export interface SourceWater extends WaterState {
  readonly total: AmmoniaNitrogen;
}

/**
 * The water after mixing in a share of new water. Ammonia and temperature mix by volume. pH does not: what it becomes
 * hangs on the alkalinity of both, which nobody measured. It is bounded all the same. At a given pH the balance of
 * charges is linear in the amounts dissolved, so waters at or below a pH mix to one at or below it: the higher of the
 * two is an upper bound, however little is mixed in. It holds while no carbon dioxide leaves; so the pH of tap water
 * counts once it has stood. `unionisedAtMost` is taken at that pH and at the warmer temperature.
 *
 * @example mix({ total, pH: 7, celsius: 28 }, { total: none, pH: 8, celsius: 22 }, 0.3).celsius // 26.2
 */
export function mix(tank: SourceWater, source: SourceWater, share: number): MixedWater {
  const total = afterChange(tank.total, share, source.total) as AmmoniaNitrogen;
  const celsius = afterChange(tank.celsius, share, source.celsius);
  const celsiusAtMost = Math.max(tank.celsius, celsius);
  const pHAtMost = share === 0 ? tank.pH : Math.max(tank.pH, source.pH);
  const atMost = unionisedShare({ pH: pHAtMost, celsius: celsiusAtMost });
  const unionisedAtMost = (total * atMost) as AmmoniaNitrogen;
  return { total, celsius, celsiusAtMost, pHAtMost, unionisedAtMost };
}
