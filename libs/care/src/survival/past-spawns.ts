import { type BroodLives, type CullReading, livesForEstimate } from './brood-lives.js';
import { type SurvivalStep, kaplanMeier, survivalOn } from './kaplan-meier.js';

/** All fish of several spawns as if they were one brood: large spawns weigh more. */
export function pooledSurvival(
  broods: readonly BroodLives[],
  reading: CullReading,
): SurvivalStep[] {
  const started = broods.reduce((sum, brood) => sum + brood.started, 0);
  return kaplanMeier(
    started,
    broods.flatMap((brood) => livesForEstimate(brood, reading)),
  );
}

export interface BandPoint {
  readonly day: number;
  /** Spawns still watched on the day. */
  readonly spawns: number;
  /** Tenth, fiftieth and ninetieth percentile of the spawns' own curves on the day. */
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/**
 * How the person's own past spawns spread, each a curve of its own and all counting alike: what one more spawn can be
 * expected to look like, if nothing changed. Percentiles by linear interpolation (Hyndman and Fan (1996) type 7); with
 * few spawns they are close to the worst and the best. A spawn counts up to the last day it was watched, and after that
 * day only if nothing was left of it. Work grows with days * spawns.
 *
 * @returns one point a day on which any curve steps; empty for fewer than 2 spawns.
 */
export function bandOf(broods: readonly BroodLives[], reading: CullReading): BandPoint[] {
  const curves = broods
    .filter((brood) => brood.started > 0)
    .map((brood) => ({
      steps: kaplanMeier(brood.started, livesForEstimate(brood, reading)),
      until:
        brood.left === 0 && brood.started > 0 && endedInDeath(brood, reading)
          ? Infinity
          : brood.lastDay,
    }));
  const days = [...new Set(curves.flatMap(({ steps }) => steps.map((step) => step.day)))].sort(
    (a, b) => a - b,
  );
  return days.flatMap((day): BandPoint[] => {
    const at = curves
      .filter(({ until }) => until >= day)
      .map(({ steps }) => survivalOn(steps, day))
      .sort((a, b) => a - b);
    if (at.length < 2) return [];
    return [
      {
        day,
        spawns: at.length,
        low: percentile(at, 0.1),
        middle: percentile(at, 0.5),
        high: percentile(at, 0.9),
      },
    ];
  });
}

/** True when the curve reached 0, so that it stays known for ever. */
function endedInDeath(brood: BroodLives, reading: CullReading): boolean {
  return kaplanMeier(brood.started, livesForEstimate(brood, reading)).at(-1)?.survival === 0;
}

function percentile(sorted: readonly number[], share: number): number {
  const at = (sorted.length - 1) * share;
  const below = sorted[Math.floor(at)] ?? 0;
  const above = sorted[Math.ceil(at)] ?? below;
  return below + (above - below) * (at - Math.floor(at));
}

export interface Comparison {
  /** Last day on which both this spawn and at least two past ones were watched. */
  readonly day: number;
  readonly here: number;
  readonly band: BandPoint;
  readonly place: 'below' | 'within' | 'above';
}

/** Where a spawn's curve stands among the past ones on the last day they share; `null` without such a day. */
export function compareWithPast(
  steps: readonly SurvivalStep[],
  lastDay: number,
  band: readonly BandPoint[],
): Comparison | null {
  const point = band.findLast(({ day }) => day <= lastDay);
  if (point === undefined) return null;
  const here = survivalOn(steps, point.day);
  const place = here < point.low ? 'below' : here > point.high ? 'above' : 'within';
  return { day: point.day, here, band: point, place };
}
