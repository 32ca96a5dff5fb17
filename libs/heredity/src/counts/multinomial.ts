import { logFactorial } from './binomial-mass.js';

/** Outcomes as likely as the observed one must count although rounding may put them a hair above it. */
export const TIE = 1e-7;

/** ln n! for n = 0 ... `upTo`. */
function logFactorials(upTo: number): Float64Array {
  const table = new Float64Array(upTo + 1);
  let carried = 0;
  for (let n = 2; n <= upTo; n++) {
    // Compensated: tens of thousands of roundings would otherwise show in the tie rule of the exact test.
    const add = Math.log(n) - carried;
    const before = table[n - 1] ?? 0;
    const sum = before + add;
    carried = sum - before - add;
    table[n] = sum;
  }
  return table;
}

/** Number of ways to spread `n` fish over `classes` classes: C(n + classes - 1, classes - 1). */
export function outcomeCount(n: number, classes: number): number {
  let count = 1;
  for (let i = 1; i < classes; i++) count = (count * (n + i)) / i;
  return Math.round(count);
}

/** ln of the multinomial probability of `counts`; -Infinity when a class of probability 0 was seen. */
export function logMultinomial(
  counts: readonly number[],
  probabilities: readonly number[],
): number {
  const total = counts.reduce((a, b) => a + b, 0);
  let log = logFactorial(total);
  counts.forEach((count, i) => {
    if (count > 0) log += count * Math.log(probabilities[i] ?? 0) - logFactorial(count);
  });
  return log;
}

/**
 * Calls `visit` with ln probability of every possible set of counts of `n` fish over classes of positive probability.
 * Cost: {@link outcomeCount} calls.
 */
export function visitOutcomes(
  n: number,
  probabilities: readonly number[],
  visit: (logProbability: number, counts: readonly number[]) => void,
): void {
  const table = logFactorials(n);
  const logs = probabilities.map(Math.log);
  const counts = probabilities.map(() => 0);
  const last = probabilities.length - 1;
  const place = (cell: number, left: number, log: number) => {
    const logP = logs[cell] ?? 0;
    if (cell === last) {
      counts[cell] = left;
      visit(log + left * logP - (table[left] ?? 0), counts);
      return;
    }
    for (let count = 0; count <= left; count++) {
      counts[cell] = count;
      place(cell + 1, left - count, log + count * logP - (table[count] ?? 0));
    }
  };
  place(0, n, table[n] ?? 0);
}
