import type { GridPoint } from './posterior.js';

/** Shares of the whole variance: of the breeding value, of each further term, of the residual. */
export interface Shares {
  readonly heritability: number;
  readonly others: readonly number[];
  readonly residual: number;
}

/** What scores say at some shares, and the values there, which cost more than the weighing. */
export interface WeighedShares extends Pick<GridPoint, 'logDensity' | 'logPrior'> {
  readonly values: () => Pick<GridPoint, 'value' | 'standardError' | 'accuracy'>;
}

/** Shares that were weighed, with the volume of their box in `logPrior`. */
export interface SharesPoint extends WeighedShares {
  readonly others: readonly number[];
  /** ln of the prior's density, without the volume. */
  readonly priorDensity: number;
}

export interface WeighedGrid {
  /** Further random terms. */
  readonly others: number;
  /** Shares of theirs that are weighed at one heritability, at most. */
  readonly most: number;
  readonly weigh: (shares: Shares) => WeighedShares;
}

/** A box of parts: what each further term takes of what those before it leave. */
interface Box {
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly shares: Shares;
  readonly weighed: WeighedShares;
  /** ln of the box's probability, up to a constant. */
  readonly mass: number;
  /** Sides along which it is known that cutting it changes nothing. */
  readonly even: readonly boolean[];
}

/** A box is even along a side when its thirds hold together what it held, to this part. */
const EVEN = 0.2;
/** Boxes with less than this part of the probability at a heritability are not cut. */
const SMALL = Math.log(0.02);

/**
 * Shares of further terms at one heritability, each term's part of what is left taken as flat before: weighed boxes of unequal size, cut in
 * three where the density is not even, the heaviest first. What scores tell sharply (how like repeated looks at one fish are) lies between the
 * points of any fixed grid, and the heritability would be drawn to where the grid comes near it.
 *
 * @returns each with its box's volume in `logPrior`. Cost: `most` weighings at most, one where there are no further terms.
 */
export function sharesAt(heritability: number, grid: WeighedGrid): SharesPoint[] {
  const whole = new Array<number>(grid.others).fill(0);
  const even = whole.map(() => false);
  let boxes = [
    boxOf(
      heritability,
      grid,
      whole,
      whole.map(() => 1),
      even,
    ),
  ];
  let weighed = 1;
  while (weighed + 2 <= grid.most) {
    const cut = boxToCut(boxes);
    if (cut === null) break;
    const thirds = cutInThree(heritability, grid, cut);
    weighed += 2;
    boxes = [...boxes.filter((box) => box !== cut), ...thirds];
  }
  return boxes.map(({ shares, weighed: { values, logDensity, logPrior }, low, high }) => ({
    ...{ values, logDensity, others: shares.others },
    logPrior: logPrior + logVolume(low, high),
    priorDensity: logPrior,
  }));
}

/** The heaviest box that is not known to be even; null when none of any weight is left. */
function boxToCut(boxes: readonly Box[]): Box | null {
  const all = logSum(boxes.map(({ mass }) => mass));
  const open = boxes.filter(({ even, mass }) => even.includes(false) && mass > all + SMALL);
  return open.reduce<Box | null>(
    (most, box) => (most === null || box.mass > most.mass ? box : most),
    null,
  );
}

/** Cuts a box along its longest side that is not known to be even. The middle third has the middle of the whole, and its weight. */
function cutInThree(heritability: number, grid: WeighedGrid, box: Box): Box[] {
  const { low, high } = box;
  const side = box.even.reduce(
    (longest, even, k) =>
      !even && (longest < 0 || high[k]! - low[k]! > high[longest]! - low[longest]!) ? k : longest,
    -1,
  );
  const third = (high[side]! - low[side]!) / 3;
  const at = (list: readonly number[], value: number): number[] => list.with(side, value);
  const thirds = [0, 1, 2].map((k) =>
    boxOf(
      heritability,
      grid,
      at(low, low[side]! + k * third),
      at(high, k === 2 ? high[side]! : low[side]! + (k + 1) * third),
      box.even,
      k === 1 ? box : undefined,
    ),
  );
  const together = logSum(thirds.map(({ mass }) => mass));
  if (Math.abs(together - box.mass) > EVEN) return thirds;
  const even = box.even.with(side, true);
  return thirds.map((one) => ({ ...one, even }));
}

function boxOf(
  heritability: number,
  { weigh }: WeighedGrid,
  low: readonly number[],
  high: readonly number[],
  even: readonly boolean[],
  sameMiddle?: Box,
): Box {
  let residual = 1 - heritability;
  const others = low.map((from, k) => {
    const share = ((from + high[k]!) / 2) * residual;
    residual -= share;
    return share;
  });
  const shares = sameMiddle?.shares ?? { heritability, others, residual };
  const weighed = sameMiddle?.weighed ?? weigh(shares);
  const mass = weighed.logDensity + weighed.logPrior + logVolume(low, high);
  return { low, high, shares, weighed, mass, even };
}

const logVolume = (low: readonly number[], high: readonly number[]): number =>
  low.reduce((sum, from, k) => sum + Math.log(high[k]! - from), 0);

function logSum(terms: readonly number[]): number {
  const most = Math.max(...terms);
  return most === -Infinity
    ? most
    : most + Math.log(terms.reduce((sum, t) => sum + Math.exp(t - most), 0));
}
