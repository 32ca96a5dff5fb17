import { normalBelow, normalDensity } from '@linewright/merit';
import type { TraitAim } from '../purpose/line-purpose.js';

/** Mean and variance of the points of a young, and how the mean moves with the trait's mean. */
export interface Points {
  readonly mean: number;
  readonly variance: number;
  /** Points for one unit that the mean of the trait is higher. */
  readonly slope: number;
}

/**
 * Points of young whose scores of one trait are normal: worth times the score, negative where less is better; with `within`, worth lost
 * for each unit below `low` or above `high`. For `within`, moments of the two cut-off tails (integrals by parts of the normal density).
 *
 * Cost: none but two normal tails with `within`.
 */
export function expectedPoints(aim: TraitAim, mean: number, variance: number): Points {
  const { better, worth } = aim;
  if (better !== 'within') {
    const slope = better === 'higher' ? worth : -worth;
    return { mean: slope * mean, variance: worth ** 2 * variance, slope };
  }
  const deviation = Math.sqrt(variance);
  const below = aim.low === null ? NONE : beyond(aim.low - mean, deviation);
  const above = aim.high === null ? NONE : beyond(mean - aim.high, deviation);
  const loss = below.mean + above.mean;
  return {
    mean: -worth * loss,
    variance: worth ** 2 * Math.max(0, below.square + above.square - loss ** 2),
    slope: worth * (below.chance - above.chance),
  };
}

interface Beyond {
  readonly mean: number;
  readonly square: number;
  readonly chance: number;
}

const NONE: Beyond = { mean: 0, square: 0, chance: 0 };

/** Of max(0, distance + deviation z): mean, mean square, and the chance that it is above 0. */
function beyond(distance: number, deviation: number): Beyond {
  if (deviation === 0)
    return distance > 0 ? { mean: distance, square: distance ** 2, chance: 1 } : NONE;
  const t = distance / deviation;
  const [chance, density] = [normalBelow(t), normalDensity(t)];
  return {
    mean: deviation * (t * chance + density),
    square: deviation ** 2 * ((t ** 2 + 1) * chance + t * density),
    chance,
  };
}
