import type { FittedPoint } from '../drawings/index.js';
import type { Cost, SizeChange } from '../wording/merit-words.js';

const POINTS = 24;
/** Ends that are not bounded are drawn as steep as this. */
const STEEPEST = 60;

interface Weighed {
  readonly inbreeding: number;
  readonly counted: number;
}

/**
 * Share alive by inbreeding, exp(-A - B F), as fitted and at both ends of B's interval. The ends turn about the broods' middle: A is told best
 * there, and without inbreeding it would be another with another B.
 */
export function costCurve(
  { perGamete, low, high, smallest }: Cost,
  withoutInbreeding: number,
  broods: readonly Weighed[],
): FittedPoint[] {
  const slopes: Slopes = [
    -bounded(perGamete),
    -bounded(low),
    -bounded(high),
    smallest === null ? null : -bounded(smallest),
  ];
  return turning(broods, -withoutInbreeding, slopes, Math.exp);
}

/** A change of a size is told at an F of so much. */
const TOLD_AT = 0.25;

/** Sizes by inbreeding in the same way: along a line, or, where changes are shares, along the line of the logarithms. */
export function sizeCurve(
  {
    atSibMating,
    low,
    high,
    smallest,
  }: Pick<SizeChange, 'atSibMating' | 'low' | 'high' | 'smallest'>,
  level: number,
  broods: readonly Weighed[],
  asShares: boolean,
): FittedPoint[] {
  const slope = (change: number): number => (asShares ? Math.log1p(change) : change) / TOLD_AT;
  const slopes: Slopes = [slope(atSibMating), slope(low), slope(high), slope(-smallest)];
  return asShares
    ? turning(broods, Math.log(level), slopes, Math.exp)
    : turning(broods, level, slopes, (value) => value);
}

/** Fitted, at both ends, and the smallest that could have been seen. */
type Slopes = readonly [fitted: number, end: number, other: number, smallest: number | null];

const bounded = (rate: number): number => Math.min(STEEPEST, Math.max(-STEEPEST, rate));

/** Lines through the broods' middle, told as `shown`. */
function turning(
  broods: readonly Weighed[],
  atNone: number,
  [fitted, end, other, smallest]: Slopes,
  shown: (value: number) => number,
): FittedPoint[] {
  const most = Math.max(0, ...broods.map(({ inbreeding }) => inbreeding));
  const counted = broods.reduce((sum, brood) => sum + brood.counted, 0);
  if (most === 0 || counted === 0) return [];
  const middle = broods.reduce((sum, brood) => sum + brood.counted * brood.inbreeding, 0) / counted;
  const atMiddle = atNone + fitted * middle;
  const at = (slope: number, inbreeding: number): number =>
    shown(atMiddle + slope * (inbreeding - middle));
  return Array.from({ length: POINTS + 1 }, (_, k) => {
    const inbreeding = (k / POINTS) * most;
    const ends = [at(end, inbreeding), at(other, inbreeding)];
    return {
      inbreeding,
      value: at(fitted, inbreeding),
      low: Math.min(...ends),
      high: Math.max(...ends),
      smallest: smallest === null ? null : at(smallest, inbreeding),
    };
  });
}
