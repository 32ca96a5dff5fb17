import { fraction, fractionToNumber, multiplyFractions, type Fraction } from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import type { CrossExpectation } from './cross-types.js';

/** Expected number of fish of each class among `n`. Throws `COUNT_NEGATIVE`, `COUNT_NOT_WHOLE`. */
export function expectedCounts(
  expectation: Pick<CrossExpectation, 'classes'>,
  n: number,
): { key: string; label: string; probability: Fraction; count: number }[] {
  if (!Number.isInteger(n) || n < 0) {
    throw new HeredityError(
      n < 0 ? 'COUNT_NEGATIVE' : 'COUNT_NOT_WHOLE',
      `A brood has a whole number of fish, 0 or more, not ${String(n)}.`,
      { value: n },
    );
  }
  return expectation.classes.map(({ key, label, probability }) => ({
    key,
    label,
    probability,
    count: fractionToNumber(multiplyFractions(probability, fraction(n))),
  }));
}
