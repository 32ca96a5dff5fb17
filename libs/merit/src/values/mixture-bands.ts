import { normalQuantile, studentTail } from '../distributions.js';
import type { Band, Posterior } from './posterior.js';

/** The middle by even steps, wide enough for all but the tails of few degrees of freedom. */
const PER_UNIT = 256;
const MIDDLE = 8;
/** The rest evenly on the inverse hyperbolic sine, which reaches far out. */
const NODES = 8192;
const REACH = 9;
/** Points of the grid that hold less than this together move no band that anyone could see. */
const NEGLIGIBLE = 1e-7;

/** Adds a share of a distribution function, and of its slope, to what stands at 0 and 1. */
type Adding = (z: number, weight: number, slope: number, to: Float64Array) => void;

/** Student's distribution function by two tables: to six digits, a hundred times as fast. */
function tableOf(freedom: number): Adding {
  const above = (z: number): number => studentTail(z, freedom);
  const middle = bothSides(MIDDLE * PER_UNIT, (k) => above(k / PER_UNIT));
  const far = bothSides(NODES / 2, (k) => above(Math.sinh((2 * REACH * k) / NODES)));
  return (z, weight, slope, to) => {
    if (z > -MIDDLE && z < MIDDLE) {
      const at = (z + MIDDLE) * PER_UNIT;
      const low = Math.trunc(at);
      const rise = middle[low + 1]! - middle[low]!;
      to[0]! += weight * (middle[low]! + (at - low) * rise);
      to[1]! += slope * PER_UNIT * rise;
      return;
    }
    const at = ((Math.asinh(z) + REACH) * NODES) / (2 * REACH);
    if (!(at > 0)) return;
    const low = Math.min(NODES - 1, Math.trunc(at));
    to[0]! += weight * (far[low]! + Math.min(1, at - low) * (far[low + 1]! - far[low]!));
  };
}

/** Shares below so many steps to either side of 0, from those above 0 alone: the two sides are alike. */
function bothSides(steps: number, above: (step: number) => number): Float64Array {
  const below = new Float64Array(2 * steps + 1);
  for (let k = 0; k <= steps; k++) {
    const tail = above(k);
    below[steps - k] = tail;
    below[steps + k] = 1 - tail;
  }
  return below;
}

/**
 * Bands of all fish at once: as {@link Posterior.band}, to six digits of the fish's standard error.
 *
 * @returns one array of bands a probability, by fish.
 * Cost: fish times points of the grid, some four evaluations a bound.
 */
export function bandsOfAll(posterior: Posterior, probabilities: readonly number[]): Band[][] {
  const points = posterior.points
    .map((point, k) => ({ point, weight: posterior.weights[k]! }))
    .filter(({ weight }) => weight > NEGLIGIBLE / posterior.points.length);
  const add = tableOf(posterior.freedom);
  const tails = probabilities.map((probability) => (1 - probability) / 2);
  const starts = tails.map((tail) => normalQuantile(tail));
  const size = posterior.value.length;
  const bands = probabilities.map((): Band[] => []);
  const sums = new Float64Array(2);
  for (let fish = 0; fish < size; fish++) {
    const centre = posterior.value[fish]!;
    const spread = spreadOf(posterior, fish);
    const share: Share = (x) => {
      sums.fill(0);
      for (const { point, weight } of points) {
        const se = point.standardError[fish]!;
        const d = x - point.value[fish]!;
        if (se > 0) add(d / se, weight, weight / se, sums);
        else if (d >= 0) sums[0]! += weight;
      }
      return sums;
    };
    tails.forEach((tail, k) => {
      bands[k]!.push({
        low: quantile(share, tail, centre, centre + starts[k]! * spread, spread),
        high: quantile(share, 1 - tail, centre, centre - starts[k]! * spread, spread),
      });
    });
  }
  return bands;
}

/** The share that lies below, and its slope. */
type Share = (x: number) => Float64Array;

/** A finite scale of a fish's uncertainty; 0 where nothing is unknown. */
function spreadOf({ standardError, points }: Posterior, fish: number): number {
  if (Number.isFinite(standardError[fish]!)) return standardError[fish]!;
  return points.reduce((most, point) => Math.max(most, point.standardError[fish]!), 0);
}

/** Where a rising function reaches `wanted`: Newton's steps, halving where one would leave what is known to hold it. */
function quantile(
  share: Share,
  wanted: number,
  centre: number,
  start: number,
  spread: number,
): number {
  if (!(spread > 0)) return centre;
  let [low, high] = [-Infinity, Infinity];
  let x = start;
  for (let step = 0; step < 80; step++) {
    const [sum, slope] = share(x) as unknown as [number, number];
    const off = sum - wanted;
    if (Math.abs(off) < 1e-8) return x;
    if (off < 0) low = x;
    else high = x;
    if (high - low < 1e-7 * spread) break;
    const next = x - off / slope;
    // Out where nothing is known yet, twice as far each time.
    const within = slope > 0 && Math.abs(next - x) < 2 * spread * 2 ** step;
    if (within && next > low && next < high) x = next;
    else if (low === -Infinity) x -= spread * 2 ** step;
    else if (high === Infinity) x += spread * 2 ** step;
    else x = (low + high) / 2;
  }
  return x;
}
