import type { CostPoint } from '../drawings/index.js';
import type { Cost } from '../wording/merit-words.js';

const POINTS = 24;
/** Ends that are not bounded are drawn as steep as this. */
const STEEPEST = 60;

/**
 * Share alive by inbreeding, exp(-A - B F), as fitted and at both ends of B's interval. The ends turn about the broods' middle: A is told best
 * there, and without inbreeding it would be another with another B.
 */
export function costCurve(
  { perGamete, low, high, smallest }: Cost,
  withoutInbreeding: number,
  broods: readonly { readonly inbreeding: number; readonly counted: number }[],
): CostPoint[] {
  const most = Math.max(0, ...broods.map(({ inbreeding }) => inbreeding));
  const counted = broods.reduce((sum, brood) => sum + brood.counted, 0);
  if (most === 0 || counted === 0) return [];
  const middle = broods.reduce((sum, brood) => sum + brood.counted * brood.inbreeding, 0) / counted;
  const atMiddle = withoutInbreeding + perGamete * middle;
  const share = (rate: number, inbreeding: number): number =>
    Math.exp(-atMiddle - Math.min(STEEPEST, Math.max(-STEEPEST, rate)) * (inbreeding - middle));
  return Array.from({ length: POINTS + 1 }, (_, k) => {
    const inbreeding = (k / POINTS) * most;
    const ends = [share(low, inbreeding), share(high, inbreeding)];
    return {
      inbreeding,
      share: share(perGamete, inbreeding),
      low: Math.min(...ends),
      high: Math.max(...ends),
      smallest: smallest === null ? null : share(smallest, inbreeding),
    };
  });
}
