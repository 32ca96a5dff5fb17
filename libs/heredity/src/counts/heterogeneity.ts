import { fractionToNumber, type FractionInput } from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import { chiSquareUpperTail } from './chi-square.js';
import { assertAtMost } from '../limits.js';
import { checkCounts } from './counts.js';
import { fitStatistics, sharesOf, type FitStatistic } from './goodness-of-fit.js';

const MOST_BROODS = 2_000;

export interface Heterogeneity {
  readonly perBrood: readonly FitStatistic[];
  /** Sum over the broods. */
  readonly total: FitStatistic;
  /** All broods added together. */
  readonly pooled: FitStatistic;
  /** Total less pooled: whether the broods differ among themselves. */
  readonly heterogeneity: FitStatistic;
  /** Broods in which some class expects fewer than five fish, by place: their statistics are rough. */
  readonly sparse: readonly number[];
}

/**
 * Whether several broods of the same kind of cross agree with a ratio and with one another (Mather 1938; Sokal & Rohlf
 * 1995, box 17.4): total = pooled + heterogeneity, with degrees of freedom that add up likewise. G adds up exactly and
 * cannot be negative; chi-square does so roughly.
 *
 * @param broods counts of each brood, classes in the same order.
 * @throws HeredityError as `goodnessOfFit`; `ARGUMENT_INVALID` for fewer than two broods or an empty one; `TOO_LARGE`
 * (over 2,000 broods).
 */
export function heterogeneity(
  broods: readonly (readonly number[])[],
  expected: readonly FractionInput[],
): { readonly g: Heterogeneity; readonly chiSquare: Heterogeneity } {
  const classes = expected.length;
  assertAtMost(broods.length, MOST_BROODS, 'broods', 'Take a part of them.');
  const shares = sharesOf(expected, classes).map(fractionToNumber);
  if (broods.length < 2 || shares.some((p) => p === 0)) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      'Heterogeneity needs two broods or more, and a positive share for every class.',
    );
  }
  const sums = shares.map(() => 0);
  const fits: { chiSquare: number; g: number }[] = [];
  const sparse: number[] = [];
  broods.forEach((brood, at) => {
    const total = checkCounts(brood);
    if (brood.length !== classes) {
      throw new HeredityError(
        'CLASSES_MISMATCH',
        `Brood ${String(at + 1)} has ${String(brood.length)} classes, not ${String(classes)}.`,
      );
    }
    if (total === 0)
      throw new HeredityError('ARGUMENT_INVALID', `Brood ${String(at + 1)} has no fish.`);
    brood.forEach((count, i) => (sums[i] = (sums[i] ?? 0) + count));
    const numbers = shares.map((p) => p * total);
    if (numbers.some((e) => e < 5)) sparse.push(at);
    fits.push(fitStatistics(brood, numbers));
  });
  const all = sums.reduce((a, b) => a + b, 0);
  const together = fitStatistics(
    sums,
    shares.map((p) => p * all),
  );
  const part = (pick: 'chiSquare' | 'g'): Heterogeneity => {
    const df = classes - 1;
    const test = (statistic: number, freedom: number): FitStatistic => ({
      statistic,
      df: freedom,
      pValue: chiSquareUpperTail(Math.max(0, statistic), freedom),
    });
    const total = fits.reduce((sum, fit) => sum + fit[pick], 0);
    return {
      perBrood: fits.map((fit) => test(fit[pick], df)),
      total: test(total, df * broods.length),
      pooled: test(together[pick], df),
      heterogeneity: test(total - together[pick], df * (broods.length - 1)),
      sparse,
    };
  };
  return { g: part('g'), chiSquare: part('chiSquare') };
}
