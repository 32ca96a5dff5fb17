import { seededChance } from '@linewright/pedigree';
import { HeredityError } from '../heredity-error.js';
import { logFactorial } from './binomial-mass.js';
import { logMultinomial, TIE } from './multinomial.js';

const DRAWS = 10_000;
/** Fish looked at one by one, over all draws. */
const MOST_STEPS = 50_000_000;

/** A binomial count by inversion from 0: about n p steps. */
function drawBinomial(n: number, p: number, random: () => number): number {
  if (n === 0 || p <= 0) return 0;
  if (p >= 1) return n;
  const odds = p / (1 - p);
  let term = Math.exp(n * Math.log1p(-p));
  let left = random();
  let x = 0;
  while (left >= term && x < n) {
    left -= term;
    term *= ((n - x) / (x + 1)) * odds;
    x++;
  }
  return x;
}

/** Draws a brood class by class and gives ln of its chance; the last class takes what is left. */
function classByClass(total: number, p: readonly number[], random: () => number): () => number {
  const logs = p.map(Math.log);
  const whole = logFactorial(total);
  return () => {
    let left = total;
    let share = 1;
    let log = whole;
    for (let i = 0; i < p.length; i++) {
      const own = p[i] ?? 0;
      const count = i === p.length - 1 ? left : drawBinomial(left, own / share, random);
      if (count > 0) log += count * (logs[i] ?? 0) - logFactorial(count);
      left -= count;
      share -= own;
    }
    return log;
  };
}

/** Likewise fish by fish: cheaper for few fish in many classes. */
function fishByFish(total: number, p: readonly number[], random: () => number): () => number {
  const logs = p.map(Math.log);
  const whole = logFactorial(total);
  const upTo: number[] = [];
  p.reduce((sum, share, i) => (upTo[i] = sum + share), 0);
  const counts = new Int32Array(p.length);
  const classOf = (at: number): number => {
    let low = 0;
    let high = p.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (at < (upTo[middle] ?? 1)) high = middle;
      else low = middle + 1;
    }
    return low;
  };
  return () => {
    counts.fill(0);
    let log = whole;
    for (let fish = 0; fish < total; fish++) {
      const i = classOf(random());
      const count = (counts[i] ?? 0) + 1;
      counts[i] = count;
      log += (logs[i] ?? 0) - Math.log(count);
    }
    return log;
  };
}

/**
 * The exact multinomial test by drawing broods under the expectation instead of going through all: the share that is no more
 * likely than the one seen, with the one seen counted in, so that p is never 0 (Davison AC, Hinkley DV (1997) Bootstrap
 * Methods and their Application, Cambridge University Press, section 4.2; from memory). From a fixed seed: the same counts
 * give the same p.
 *
 * @throws HeredityError `ARGUMENT_INVALID` where the fish outside the largest class are too many to draw.
 * Cost: 10,000 draws, each of a few steps a fish, or as many as there are classes and expected fish outside the largest.
 */
export function sampledMultinomial(
  observed: readonly number[],
  probabilities: readonly number[],
): { pValue: number; standardError: number; draws: number } {
  // The largest class last: it takes what the others leave.
  const order = probabilities
    .flatMap((p, i) => (p > 0 ? [i] : []))
    .sort((a, b) => (probabilities[a] ?? 0) - (probabilities[b] ?? 0));
  const p = order.map((i) => probabilities[i] ?? 0);
  const counts = order.map((i) => observed[i] ?? 0);
  const total = counts.reduce((a, b) => a + b, 0);
  const steps = Math.min(total * 8, p.length + total * (1 - (p.at(-1) ?? 1)));
  if (steps * DRAWS > MOST_STEPS) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `${String(total)} fish in ${String(p.length)} classes leave no degree of freedom for chi-square and have too many outcomes to go through: test fewer classes, or estimate fewer parameters from them.`,
      { total, classes: p.length },
    );
  }
  const limit = logMultinomial(counts, p) + Math.log1p(TIE);
  const random = seededChance(1);
  const draw = total < p.length ? fishByFish(total, p, random) : classByClass(total, p, random);
  let unlikely = 1;
  for (let i = 0; i < DRAWS; i++) if (draw() <= limit) unlikely++;
  const pValue = unlikely / (DRAWS + 1);
  return { pValue, standardError: Math.sqrt((pValue * (1 - pValue)) / DRAWS), draws: DRAWS };
}
