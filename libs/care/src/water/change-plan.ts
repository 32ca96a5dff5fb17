import type { AmmoniaNitrogen } from './ammonia-units.js';
import { type MixedWater, type SourceWater, mix } from './change-of-water.js';
import { unionisedShare } from './unionised.js';

/** The water that changes are made with. `null`: not measured, and taken as in the vessel. */
export interface NewWater {
  readonly total: AmmoniaNitrogen;
  readonly pH: number | null;
  readonly celsius: number | null;
}

/** Equal changes of water, one after another. */
export interface ChangeSteps {
  readonly times: number;
  /** Share of each, in whole hundredths: nobody measures out finer. */
  readonly each: number;
  /** The water after each of them. */
  readonly after: readonly MixedWater[];
}

export type ChangeOutcome =
  /** Not over the limit. */
  | 'NOT_NEEDED'
  /** `steps` end at or under the limit, and none of them stands above the start. */
  | 'OFFERED'
  /** Such changes would end under the limit, but stand above the start on the way. */
  | 'WORSE_ON_THE_WAY'
  /** No changes with this water end under the limit. */
  | 'IMPOSSIBLE';

export type ChangeWarning =
  /** The new water's pH is higher: what ammonia is left turns more poisonous. */
  | 'PH_RISES'
  /** The new water holds more ammonia than the vessel. */
  | 'AMMONIA_RISES'
  /** The pH of the new water was not measured. */
  | 'PH_UNKNOWN'
  /** The new water is more than 2 degrees warmer or colder. */
  | 'TEMPERATURE_DIFFERS'
  /** More than half the water in all. */
  | 'LARGE_CHANGE';

/** How far new water can raise un-ionised ammonia, mg/L as N. */
export interface RiseByNewWater {
  /** After the usual change, of {@link usualShare}. */
  readonly afterUsual: AmmoniaNitrogen;
  /** At any share, so also while new water goes in and has not diluted the old yet. */
  readonly atMost: AmmoniaNitrogen;
}

export interface ChangePlan {
  /** Un-ionised ammonia now, mg/L as N. */
  readonly now: AmmoniaNitrogen;
  readonly limit: AmmoniaNitrogen;
  readonly outcome: ChangeOutcome;
  /** The changes offered; `null` unless the outcome is `OFFERED`. */
  readonly steps: ChangeSteps | null;
  /** Highest un-ionised ammonia after a step of what is not offered; `null` unless `WORSE_ON_THE_WAY`. */
  readonly worstOnTheWay: AmmoniaNitrogen | null;
  /** Where nothing is offered: the same with clean water of the vessel's own pH and temperature, if that helps. */
  readonly matched: ChangeSteps | null;
  /** `null` when the new water cannot raise it, whatever the share. */
  readonly rise: RiseByNewWater | null;
  readonly warnings: readonly ChangeWarning[];
  readonly tank: SourceWater;
}

/** Share of the usual change of water: common practice, no source. */
export const usualShare = 0.25;

/** Most changed at once, in hundredths: common practice, no source. */
const MOST_AT_ONCE = 50;
/** More changes than that take too long to help. */
const MOST_TIMES = 10;
const DEGREES_APART = 2;

/**
 * Changes of water that bring un-ionised ammonia to a limit or under it, each of at most half the water, as few and as
 * small as do it. Every step is reckoned by the upper bound of {@link mix}; what would stand above the start after any
 * of them is not offered, and `matched` tells what clean water of the same pH and temperature would do. What the new
 * water can raise is told whether or not a change is needed.
 *
 * While new water goes in, before it has diluted the old, the bound is `rise.atMost`: with steps of at most half the
 * water no more than twice the start in anything offered.
 *
 * Cost: at most some hundred mixtures.
 * @throws CareError for values out of range.
 * @example planChange(tank, { total: none, pH: null, celsius: null }, limit).steps // { times: 1, each: 0.24, ... }
 */
export function planChange(
  tank: SourceWater,
  newWater: NewWater,
  limit: AmmoniaNitrogen,
): ChangePlan {
  const source: SourceWater = {
    total: newWater.total,
    pH: newWater.pH ?? tank.pH,
    celsius: newWater.celsius ?? tank.celsius,
  };
  const now = mix(tank, source, 0).unionisedAtMost;
  const rise = riseBy(tank, source, now);
  const told = { now, limit, rise, tank };
  const warnings = warningsOf(tank, newWater, source);
  const nothing = { steps: null, worstOnTheWay: null, matched: null };
  if (now <= limit) return { ...told, ...nothing, outcome: 'NOT_NEEDED', warnings };
  const steps = fewestSteps(tank, source, limit, now);
  if (steps !== null) {
    if (steps.times > 1) warnings.push('LARGE_CHANGE');
    return { ...told, ...nothing, outcome: 'OFFERED', steps, warnings };
  }
  const still = { total: 0 as AmmoniaNitrogen, pH: tank.pH, celsius: tank.celsius };
  const matched = fewestSteps(tank, still, limit, now);
  const harmful = fewestSteps(tank, source, limit, Number.POSITIVE_INFINITY);
  return {
    ...told,
    steps: null,
    matched,
    warnings,
    outcome: harmful === null ? 'IMPOSSIBLE' : 'WORSE_ON_THE_WAY',
    worstOnTheWay: harmful === null ? null : highest(harmful.after),
  };
}

const highest = (waters: readonly MixedWater[]): AmmoniaNitrogen =>
  Math.max(...waters.map((water) => water.unionisedAtMost)) as AmmoniaNitrogen;

/** `times` changes of a share come to one of 1 - (1 - share)^times. */
const stepsOf = (
  tank: SourceWater,
  source: SourceWater,
  times: number,
  each: number,
): ChangeSteps => ({
  times,
  each,
  after: Array.from({ length: times }, (_, n) => mix(tank, source, 1 - (1 - each) ** (n + 1))),
});

function fewestSteps(
  tank: SourceWater,
  source: SourceWater,
  limit: number,
  most: number,
): ChangeSteps | null {
  for (let times = 1; times <= MOST_TIMES; times += 1) {
    const least = leastShare(tank, source, limit, times);
    for (let hundredths = least; hundredths <= MOST_AT_ONCE; hundredths += 1) {
      const steps = stepsOf(tank, source, times, hundredths / 100);
      const last = steps.after.at(-1);
      if (last !== undefined && last.unionisedAtMost <= limit && highest(steps.after) <= most) {
        return steps;
      }
    }
  }
  return null;
}

/** A share, in hundredths, below which so many changes cannot reach the limit: mixing in only warms and raises pH. */
function leastShare(tank: SourceWater, source: SourceWater, limit: number, times: number): number {
  const pH = Math.max(tank.pH, source.pH);
  const target = limit / unionisedShare({ pH, celsius: tank.celsius });
  if (source.total >= tank.total || source.total > target) return MOST_AT_ONCE + 1;
  const left = (target - source.total) / (tank.total - source.total);
  // A hair less, so that rounding does not pass over the share that just reaches it.
  return Math.max(1, Math.ceil(100 * (1 - left ** (1 / times)) - 1e-6));
}

function riseBy(
  tank: SourceWater,
  source: SourceWater,
  now: AmmoniaNitrogen,
): RiseByNewWater | null {
  const pH = Math.max(tank.pH, source.pH);
  // The first drops: the pH may be that of the new water already, and nothing is diluted yet.
  const first = tank.total * unionisedShare({ pH, celsius: tank.celsius });
  const shares = Array.from({ length: 100 }, (_, n) => (n + 1) / 100);
  const atMost = Math.max(
    first,
    ...shares.map((share) => mix(tank, source, share).unionisedAtMost),
  ) as AmmoniaNitrogen;
  if (atMost <= now * (1 + 1e-9)) return null;
  return { afterUsual: mix(tank, source, usualShare).unionisedAtMost, atMost };
}

function warningsOf(tank: SourceWater, newWater: NewWater, source: SourceWater): ChangeWarning[] {
  const warnings: ChangeWarning[] = [];
  if (source.pH > tank.pH && tank.total + source.total > 0) warnings.push('PH_RISES');
  if (source.total > tank.total) warnings.push('AMMONIA_RISES');
  if (newWater.pH === null && tank.total > 0) warnings.push('PH_UNKNOWN');
  if (Math.abs(source.celsius - tank.celsius) > DEGREES_APART) warnings.push('TEMPERATURE_DIFFERS');
  return warnings;
}
