import { MatingError } from '../mating-error.js';
import {
  anyContributions,
  ContributionPath,
  withWorthInRange,
  type PathStretch,
} from './contribution-path.js';
import {
  boundedProblem,
  type BoundedProblem,
  type ContributionProblem,
} from './contribution-problem.js';
import { nearContributions } from './near-contributions.js';

/** What each candidate gives to the next generation, and what that means. */
export interface Contributions {
  /** Share of each candidate, in their order; each group's sum to its total. */
  readonly share: Float64Array;
  /** Mean worth of the next generation: v'c. */
  readonly value: number;
  /** Mean coancestry of those who give, themselves included: c'Kc. */
  readonly coancestry: number;
}

/** Rounding that a limit is not refused for. */
const ROUNDING = 1e-12;

/**
 * Contributions of least mean coancestry.
 *
 * @throws MatingError as {@link boundedProblem}.
 */
export function leastCoancestry(problem: ContributionProblem): Contributions {
  const bounded = boundedProblem(problem);
  return told(bounded, fromLeast(bounded).first);
}

/** The path from its beginning. */
function fromLeast(bounded: BoundedProblem): ContributionPath {
  const near = nearContributions(bounded, 0, anyContributions(bounded));
  return new ContributionPath(withWorthInRange(bounded), 0, near);
}

/**
 * Contributions of most worth whose mean coancestry c'Kc is at most `limit`; of those alike in worth the least related.
 *
 * @throws MatingError MATING_COANCESTRY_UNREACHABLE, which names the least that can be reached; and as {@link boundedProblem}.
 * Source and cost: {@link ContributionPath}.
 */
export function bestContributions(problem: ContributionProblem, limit: number): Contributions {
  const bounded = boundedProblem(problem);
  const path = fromBelow(bounded, limit);
  let last = told(bounded, path.first);
  if (!(last.coancestry <= limit + ROUNDING)) throw unreachable(limit, last.coancestry);
  for (const stretch of path.stretches()) {
    last = told(bounded, stretch.end);
    if (last.coancestry >= limit) return told(bounded, onStretch(bounded, stretch, limit));
  }
  return last;
}

/** The path from a weight at which mean coancestry is still below the limit, and near it; from its beginning where there is none. */
function fromBelow(bounded: BoundedProblem, limit: number): ContributionPath {
  const problem = withWorthInRange(bounded);
  let near = nearContributions(problem, 0, anyContributions(problem));
  const of = (shares: Float64Array): number => told(bounded, shares).coancestry;
  const least = of(near);
  let [low, high] = [0, Infinity];
  if (least < limit) {
    let weight = 1e-3;
    for (let turn = 0; turn < 24 && high - low > 0.1 * low; turn++) {
      const tried = nearContributions(problem, weight, near);
      if (of(tried) < limit) [low, near] = [weight, tried];
      else high = weight;
      weight = high === Infinity ? 4 * weight : (low + high) / 2;
    }
  }
  const path = new ContributionPath(problem, low, near);
  return low > 0 && of(path.first) > limit ? fromLeast(bounded) : path;
}

/** One corner of the frontier of worth against coancestry. */
export interface FrontierPoint {
  readonly value: number;
  readonly coancestry: number;
  /** Those who give something, and how much. */
  readonly candidates: Int32Array;
  readonly shares: Float64Array;
}

/**
 * The whole frontier: from least coancestry to greatest worth, corner by corner. Between two corners shares move along a straight line.
 *
 * @param onCorner called at each corner; return false to stop there.
 */
export function contributionFrontier(
  problem: ContributionProblem,
  onCorner: (point: FrontierPoint) => boolean = () => true,
): FrontierPoint[] {
  const bounded = boundedProblem(problem);
  const path = fromLeast(bounded);
  const points = [cornerOf(bounded, path.first)];
  if (!onCorner(points[0]!)) return points;
  for (const { to, end } of path.stretches()) {
    if (to === Infinity) break;
    const point = cornerOf(bounded, end);
    points.push(point);
    if (!onCorner(point)) break;
  }
  return points;
}

function cornerOf(problem: ContributionProblem, share: Float64Array): FrontierPoint {
  const { value, coancestry } = told(problem, share);
  const candidates = Int32Array.from(share.keys()).filter((k) => share[k]! > 0);
  return { value, coancestry, candidates, shares: Float64Array.from(candidates, (k) => share[k]!) };
}

function told({ value, coancestry }: ContributionProblem, share: Float64Array): Contributions {
  const worth = share.reduce((sum, each, k) => sum + each * value[k]!, 0);
  return { share, value: worth, coancestry: product(coancestry, share, share) };
}

/** a'Kb, over those that are not 0. */
function product(coancestry: Float64Array, a: Float64Array, b: Float64Array): number {
  const size = a.length;
  const columns = Int32Array.from(b.keys()).filter((k) => b[k] !== 0);
  let sum = 0;
  for (let i = 0; i < size; i++) {
    if (a[i] === 0) continue;
    let row = 0;
    for (const j of columns) row += coancestry[i * size + j]! * b[j]!;
    sum += a[i]! * row;
  }
  return sum;
}

/** Where on a stretch mean coancestry reaches the limit: the larger root of a quadratic, by the form that loses no digits. */
function onStretch(
  { coancestry }: ContributionProblem,
  { start, end }: PathStretch,
  limit: number,
): Float64Array {
  const move = end.map((share, k) => share - start[k]!);
  const a = product(coancestry, move, move);
  const b = product(coancestry, start, move);
  const c = product(coancestry, start, start) - limit;
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  const at = b > 0 ? -c / (b + root) : a > 0 ? (root - b) / a : 1;
  const share = Math.min(1, Math.max(0, at));
  return start.map((from, k) => from + share * move[k]!);
}

const unreachable = (limit: number, least: number): MatingError =>
  new MatingError(
    'MATING_COANCESTRY_UNREACHABLE',
    String(limit),
    `A mean coancestry of ${limit} cannot be reached with these candidates: the least is ${least.toFixed(12)}. Allow at least that, or add candidates that are less related.`,
  );
