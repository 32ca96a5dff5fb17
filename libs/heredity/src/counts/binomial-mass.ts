/** ln n! less Stirling's formula, for n = 0 ... 15 (n = 0 is not used). */
const STIRLING_ERROR = Array.from({ length: 16 }, (_, n) => {
  let log = 0;
  for (let k = 2; k <= n; k++) log += Math.log(k);
  return n === 0 ? 0 : log - (n + 0.5) * Math.log(n) + n - 0.5 * Math.log(2 * Math.PI);
});

function stirlingError(n: number): number {
  if (n <= 15) return STIRLING_ERROR[n] ?? 0;
  const square = n * n;
  return (1 / 12 - (1 / 360 - (1 / 1260 - 1 / 1680 / square) / square) / square) / n;
}

/** ln n! */
export function logFactorial(n: number): number {
  if (n < 2) return 0;
  return (n + 0.5) * Math.log(n) - n + 0.5 * Math.log(2 * Math.PI) + stirlingError(n);
}

/** x ln(x / m) + m - x, without the loss of digits where x is near m. */
function deviance(x: number, m: number): number {
  if (Math.abs(x - m) >= 0.1 * (x + m)) return x * Math.log(x / m) + m - x;
  const v = (x - m) / (x + m);
  let sum = (x - m) * v;
  let term = 2 * x * v;
  for (let j = 1; ; j++) {
    term *= v * v;
    const next = sum + term / (2 * j + 1);
    if (next === sum) return sum;
    sum = next;
  }
}

/**
 * P(X = x) of a binomial count, to full precision for any n (saddle-point form: Loader C (2000) Fast and accurate computation
 * of binomial probabilities; from memory). Cost: a few operations.
 */
export function binomialMass(x: number, n: number, p: number): number {
  const q = 1 - p;
  if (p <= 0) return x === 0 ? 1 : 0;
  if (p >= 1) return x === n ? 1 : 0;
  if (x === 0) return Math.exp(n * Math.log1p(-p));
  if (x === n) return Math.exp(n * Math.log(p));
  const log =
    stirlingError(n) -
    stirlingError(x) -
    stirlingError(n - x) -
    deviance(x, n * p) -
    deviance(n - x, n * q);
  return Math.exp(log) * Math.sqrt(n / (2 * Math.PI * x * (n - x)));
}

/** Terms summed so far, for tests of the cost. */
export interface Work {
  terms: number;
}

/** Smaller than this beside the sum, a term no longer counts. */
const NEGLIGIBLE = 1e-18;

/**
 * P(X < k) and P(X >= k) of a binomial count. The smaller of the two is summed, from the term nearest the middle outward, so
 * that it keeps its digits. Cost: about the square root of n p (1 - p) terms at most.
 */
export function binomialTails(
  n: number,
  p: number,
  k: number,
  work: Work = { terms: 0 },
): { below: number; reached: number } {
  if (k <= 0) return { below: 0, reached: 1 };
  if (k > n || p <= 0) return { below: 1, reached: 0 };
  if (p >= 1) return { below: 0, reached: 1 };
  const odds = p / (1 - p);
  const down = k - 1 < n * p;
  let x = down ? k - 1 : k;
  let term = binomialMass(x, n, p);
  let sum = 0;
  while (x >= 0 && x <= n && term > sum * NEGLIGIBLE && term > 0) {
    work.terms++;
    sum += term;
    term *= down ? x / ((n - x + 1) * odds) : ((n - x) * odds) / (x + 1);
    x += down ? -1 : 1;
  }
  const part = Math.min(1, sum);
  return down ? { below: part, reached: 1 - part } : { below: 1 - part, reached: part };
}
