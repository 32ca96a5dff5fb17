import { fractionToNumber, toProbability, type FractionInput } from '../fraction.js';
import { HeredityError } from '../heredity-error.js';
import { checkCounts } from './counts.js';
import { assertAtMost, MOST } from '../limits.js';
import { binomialMass } from './binomial-mass.js';

/** Probabilities of 0 ... n successes. Throws `TOO_LARGE`. Cost: n. */
export function binomialProbabilities(n: number, p: number): Float64Array {
  assertAtMost(n, MOST.fish, 'fish', 'Give the counts of a brood.');
  const out = new Float64Array(n + 1);
  if (p <= 0 || p >= 1) {
    out[p <= 0 ? 0 : n] = 1;
    return out;
  }
  for (let x = 0; x <= n; x++) out[x] = binomialMass(x, n, p);
  return out;
}

/**
 * Exact binomial test. Two-sided: all outcomes no more likely than the one seen (minimum-likelihood summation).
 *
 * @throws HeredityError `COUNT_*`, `PROBABILITY_OUT_OF_RANGE`, `ARGUMENT_INVALID`, `TOO_LARGE` (over a million trials).
 * Cost: linear in `trials`.
 * @example binomialTest({ successes: 682, trials: 925, probability: '3/4' }).pValue // 0.3825 (Conover 1971)
 */
export function binomialTest(input: {
  readonly successes: number;
  readonly trials: number;
  readonly probability: FractionInput;
  readonly alternative?: 'two-sided' | 'less' | 'greater';
}): { pValue: number; estimate: number } {
  const { successes, trials, alternative = 'two-sided' } = input;
  checkCounts([successes, trials]);
  if (trials === 0 || successes > trials) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `${String(successes)} of ${String(trials)} makes no sense.`,
      { successes, trials },
    );
  }
  const probabilities = binomialProbabilities(
    trials,
    fractionToNumber(toProbability(input.probability)),
  );
  const limit = (probabilities[successes] ?? 0) * (1 + 1e-7);
  let sum = 0;
  probabilities.forEach((p, x) => {
    const counts =
      alternative === 'less'
        ? x <= successes
        : alternative === 'greater'
          ? x >= successes
          : p <= limit;
    if (counts) sum += p;
  });
  return { pValue: Math.min(1, sum), estimate: successes / trials };
}
