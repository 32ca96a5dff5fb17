/** Probabilities of the bands, and their ends as shares of the simulations. */
export const BANDS = [0.5, 0.8, 0.95] as const;

export interface Band {
  readonly probability: number;
  readonly low: number;
  readonly high: number;
}

/** A simulated figure: its mean, the standard error of the mean, its median, and the ranges that hold so many of the simulations. */
export interface Fan {
  readonly mean: number;
  readonly standardError: number;
  readonly median: number;
  readonly bands: readonly Band[];
}

/** @throws RangeError without values. */
export function fanOf(values: readonly number[]): Fan {
  const n = values.length;
  if (n === 0) throw new RangeError('Nothing was simulated.');
  const sorted = values.toSorted((a, b) => a - b);
  const mean = sorted.reduce((sum, one) => sum + one, 0) / n;
  const squares = sorted.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return {
    mean,
    standardError: n < 2 ? 0 : Math.sqrt(squares / (n - 1) / n),
    median: quantile(sorted, 0.5),
    bands: BANDS.map((probability) => ({
      probability,
      low: quantile(sorted, (1 - probability) / 2),
      high: quantile(sorted, (1 + probability) / 2),
    })),
  };
}

/** Between the two nearest of sorted values, in proportion. */
function quantile(sorted: readonly number[], share: number): number {
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const [low, high] = [sorted[below]!, sorted[Math.min(below + 1, sorted.length - 1)]!];
  return low + (at - below) * (high - low);
}
