import { studentTail } from '../distributions.js';
import type { Band, Posterior } from './posterior.js';

/** Nodes of the table of Student's distribution, evenly on the inverse hyperbolic sine, which reaches far out. */
const NODES = 8192;
const REACH = 9;
/** Points of the grid that hold less than this together move no band that anyone could see. */
const NEGLIGIBLE = 1e-7;

/** Student's distribution function by a table: to six digits, a hundred times as fast. */
function tableOf(freedom: number): (z: number) => number {
  const table = Float64Array.from({ length: NODES + 1 }, (_, k) => {
    return 1 - studentTail(Math.sinh((2 * REACH * k) / NODES - REACH), freedom);
  });
  return (z) => {
    const at = ((Math.asinh(z) + REACH) * NODES) / (2 * REACH);
    if (!(at > 0)) return 0;
    if (at >= NODES) return 1;
    const low = Math.floor(at);
    return table[low]! + (at - low) * (table[low + 1]! - table[low]!);
  };
}

/**
 * Bands of all fish at once: as {@link Posterior.band}, to six digits of the fish's standard error.
 *
 * @returns one array of bands a probability, by fish.
 * Cost: fish times points of the grid, some ten evaluations a bound.
 */
export function bandsOfAll(posterior: Posterior, probabilities: readonly number[]): Band[][] {
  const points = posterior.points
    .map((point, k) => ({ point, weight: posterior.weights[k]! }))
    .filter(({ weight }) => weight > NEGLIGIBLE / posterior.points.length);
  const below = tableOf(posterior.freedom);
  const size = posterior.value.length;
  const bands = probabilities.map((): Band[] => []);
  for (let fish = 0; fish < size; fish++) {
    const centre = posterior.value[fish]!;
    const spread = spreadOf(posterior, fish);
    const share = (x: number): number => {
      let sum = 0;
      for (const { point, weight } of points) {
        const se = point.standardError[fish]!;
        const d = x - point.value[fish]!;
        sum += weight * (se > 0 ? below(d / se) : d < 0 ? 0 : 1);
      }
      return sum;
    };
    probabilities.forEach((probability, k) => {
      const tail = (1 - probability) / 2;
      bands[k]!.push({
        low: quantile(share, tail, centre, spread),
        high: quantile(share, 1 - tail, centre, spread),
      });
    });
  }
  return bands;
}

/** A finite scale of a fish's uncertainty; 0 where nothing is unknown. */
function spreadOf({ standardError, points }: Posterior, fish: number): number {
  if (Number.isFinite(standardError[fish]!)) return standardError[fish]!;
  return points.reduce((most, point) => Math.max(most, point.standardError[fish]!), 0);
}

/** Where a rising function reaches `wanted`, by false position with halved ends (Illinois). */
function quantile(
  share: (x: number) => number,
  wanted: number,
  centre: number,
  spread: number,
): number {
  if (!(spread > 0)) return centre;
  let [low, high] = [centre - 3 * spread, centre + 3 * spread];
  while (share(low) > wanted) low = centre + 4 * (low - centre);
  while (share(high) < wanted) high = centre + 4 * (high - centre);
  let [fl, fh] = [share(low) - wanted, share(high) - wanted];
  let side = 0;
  for (let step = 0; step < 60 && high - low > 1e-7 * spread; step++) {
    // Every third step halves, so that a flat stretch cannot hold it up.
    const x = step % 3 === 2 || fh === fl ? (low + high) / 2 : (low * fh - high * fl) / (fh - fl);
    const f = share(x) - wanted;
    if (Math.abs(f) < 1e-8) return x;
    if (f < 0) {
      [low, fl] = [x, f];
      if (side === -1) fh /= 2;
      side = -1;
    } else {
      [high, fh] = [x, f];
      if (side === 1) fl /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}
