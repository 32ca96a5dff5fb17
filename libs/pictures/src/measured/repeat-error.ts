/** How far markings of one picture lie apart. */
export interface RepeatError {
  /** Standard deviation of a single marking of a picture, in the trait's unit. */
  readonly deviation: number;
  /** Below this lie 95 in 100 differences of two markings of one picture. */
  readonly repeatability: number;
  /** Pictures that were marked twice or more, and their markings. */
  readonly pictures: number;
  readonly markings: number;
}

/**
 * The error of marking: the standard deviation within pictures, s_w = √(Σ(x − x̄)² / Σ(n − 1)) over pictures marked twice or more, and
 * the repeatability √2 · 1.96 · s_w.
 *
 * Source: Bland & Altman (1996) BMJ 313:744, "Measurement error" (from memory: the paper was not at hand).
 *
 * Assumes that the error is as large for small figures as for large ones.
 *
 * @param groups the figures of each picture, one array a picture. Those marked once say nothing and are left out.
 * @returns null where no picture was marked twice.
 * @example repeatErrorOf([[170, 174]])?.deviation // 2.83
 */
export function repeatErrorOf(groups: readonly (readonly number[])[]): RepeatError | null {
  const repeated = groups.filter((group) => group.length > 1);
  if (repeated.length === 0) return null;
  const squares = repeated.reduce((sum, group) => sum + squaresWithin(group), 0);
  const markings = repeated.reduce((sum, group) => sum + group.length, 0);
  const deviation = Math.sqrt(squares / (markings - repeated.length));
  return {
    deviation,
    repeatability: Math.SQRT2 * 1.96 * deviation,
    pictures: repeated.length,
    markings,
  };
}

function squaresWithin(group: readonly number[]): number {
  const mean = group.reduce((sum, value) => sum + value, 0) / group.length;
  return group.reduce((sum, value) => sum + (value - mean) ** 2, 0);
}
