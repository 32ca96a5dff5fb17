/**
 * Optimal contributions on random pedigrees, proved by a bound that needs no solver: since x'Kx is convex, no contributions y within the
 * limit can be worth more than the best of v'y - p (2 x'Ky - x'Kx - limit), for any price p, and that is linear in y.
 */
import { coancestryBlock } from '@linewright/kinship';
import {
  bestContributions,
  contributionFrontier,
  leastCoancestry,
  MatingError,
  type ContributionProblem,
} from '@linewright/mating';
import { buildPedigree, type ParentageRecord } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const SEED = 20261126;
const runs = (numRuns: number): fc.Parameters<unknown> => ({ seed: SEED, numRuns });

interface Bounded extends ContributionProblem {
  readonly least: Float64Array;
  readonly most: Float64Array;
}

interface Row {
  readonly sire: number;
  readonly dam: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Fish of several generations, mated as it comes; the last of them are the candidates. Even ones are male. */
function problemOf(rows: readonly Row[], isBounded: boolean): Bounded {
  const records = rows.map((row, i): ParentageRecord => {
    const pick = (n: number, sex: number): string | null => {
      const fit = Array.from({ length: i }, (_, k) => k).filter((k) => k % 2 === sex);
      return i < 4 || fit.length === 0 ? null : `f${fit[n % fit.length]!}`;
    };
    return { id: `f${i}`, sire: pick(row.sire, 0), dam: pick(row.dam, 1) };
  });
  const pedigree = buildPedigree(records);
  const chosen = rows.map((_, i) => i).slice(Math.min(2, rows.length - 4));
  const places = chosen.map((i) => pedigree.indexOf(`f${i}`));
  const group = Int32Array.from(chosen, (i) => i % 2);
  const share = (k: number): number => 0.5 / group.filter((of) => of === group[k]).length;
  const most = Float64Array.from(chosen, (i, k) =>
    isBounded ? Math.min(0.5, share(k) * (1 + rows[i]!.high)) : 0.5,
  );
  const least = Float64Array.from(chosen, (i, k) => (isBounded ? share(k) * rows[i]!.low : 0));
  return {
    ids: chosen.map((i) => `f${i}`),
    value: Float64Array.from(chosen, (i) => rows[i]!.value),
    coancestry: coancestryBlock(pedigree, places, places),
    group,
    totals: [0.5, 0.5],
    least,
    most,
  };
}

const problems = (isBounded: boolean, most: number): fc.Arbitrary<Bounded> =>
  fc
    .array(
      fc.record({
        sire: fc.nat({ max: 9 }),
        dam: fc.nat({ max: 9 }),
        // Few values, so that many candidates are worth the same.
        value: fc.oneof(
          fc.integer({ min: -3, max: 3 }),
          fc.double({ min: -2, max: 2, noNaN: true }),
        ),
        low: fc.constantFrom(0, 0, 0.3, 1),
        high: fc.constantFrom(0, 0.5, 1, 3, 9),
      }),
      { minLength: 6, maxLength: most },
    )
    .map((rows) => problemOf(rows, isBounded));

/** Greatest of w'y over all that the groups' totals and the bounds allow: to each group's best first. */
function greatest({ group, totals, least, most }: Bounded, weight: (k: number) => number): number {
  const order = Array.from(group.keys()).sort((a, b) => weight(b) - weight(a));
  const rest = totals.slice();
  let sum = 0;
  for (const k of order) {
    rest[group[k]!]! -= least[k]!;
    sum += least[k]! * weight(k);
  }
  for (const k of order) {
    const more = Math.min(rest[group[k]!]!, most[k]! - least[k]!);
    rest[group[k]!]! -= more;
    sum += more * weight(k);
  }
  return sum;
}

const product = ({ coancestry, ids }: Bounded, x: Float64Array): Float64Array =>
  Float64Array.from(ids, (_, k) =>
    x.reduce((sum, each, j) => sum + each * coancestry[k * ids.length + j]!, 0),
  );

const dot = (a: Float64Array, b: Float64Array): number =>
  a.reduce((s, each, k) => s + each * b[k]!, 0);

/** What is left to gain on x at most, by the tightest of the bounds: convex in the price, so thirds of the range are cut off. */
function leftToGain(problem: Bounded, x: Float64Array, limit: number): number {
  const pull = product(problem, x);
  const own = dot(x, pull);
  const bound = (price: number): number =>
    greatest(problem, (k) => problem.value[k]! - 2 * price * pull[k]!) + price * (own + limit);
  let [low, high] = [0, 1e6];
  for (let turn = 0; turn < 140; turn++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (bound(a) <= bound(b)) high = b;
    else low = a;
  }
  return (
    Math.min(bound(0), bound(low), bound(high), bound((low + high) / 2)) - dot(problem.value, x)
  );
}

function expectAllowed({ group, totals, least, most }: Bounded, x: Float64Array): void {
  x.forEach((share, k) => {
    expect(share).toBeGreaterThanOrEqual(least[k]! - 1e-12);
    expect(share).toBeLessThanOrEqual(most[k]! + 1e-12);
  });
  totals.forEach((total, of) =>
    expect(x.reduce((sum, share, k) => sum + (group[k] === of ? share : 0), 0)).toBeCloseTo(
      total,
      11,
    ),
  );
}

const reachable = (problem: Bounded): boolean => {
  try {
    leastCoancestry(problem);
    return true;
  } catch (error) {
    return !(
      error instanceof MatingError &&
      error.code === 'MATING_BAD_CONTRIBUTION' &&
      /together/.test(error.message)
    );
  }
};

describe.each([
  ['no bounds but 0', false],
  ['bounds of each', true],
])('contributions with %s', (_, isBounded) => {
  it('of least coancestry cannot be bettered', () => {
    fc.assert(
      fc.property(problems(isBounded, 30).filter(reachable), (problem) => {
        const { share, coancestry } = leastCoancestry(problem);
        expectAllowed(problem, share);
        const pull = product(problem, share);
        const gap = coancestry + greatest(problem, (k) => -pull[k]!);
        expect(gap).toBeLessThan(1e-9);
      }),
      runs(80),
    );
  });

  it('of most worth within a limit keep to it and cannot be bettered by 1e-8', () => {
    fc.assert(
      fc.property(
        problems(isBounded, 30).filter(reachable),
        fc.double({ min: 0.01, max: 1.2, noNaN: true }),
        (problem, way) => {
          const low = leastCoancestry(problem).coancestry;
          const high = contributionFrontier(problem).at(-1)!.coancestry;
          const limit = low + way * (high - low) + (high - low < 1e-9 ? 0.01 : 0);
          const { share, value, coancestry } = bestContributions(problem, limit);
          expectAllowed(problem, share);
          expect(coancestry).toBeLessThan(limit + 1e-12);
          expect(value).toBeCloseTo(dot(problem.value, share), 12);
          expect(leftToGain(problem, share, limit)).toBeLessThan(1e-8);
        },
      ),
      runs(80),
    );
  });

  it('rise in worth and coancestry along the frontier, up to the greatest worth', () => {
    fc.assert(
      fc.property(problems(isBounded, 24).filter(reachable), (problem) => {
        const corners = contributionFrontier(problem);
        corners.slice(1).forEach((corner, k) => {
          expect(corner.value).toBeGreaterThan(corners[k]!.value - 1e-9);
          expect(corner.coancestry).toBeGreaterThan(corners[k]!.coancestry - 1e-9);
        });
        expect(corners.at(-1)!.value).toBeCloseTo(
          greatest(problem, (k) => problem.value[k]!),
          8,
        );
      }),
      runs(80),
    );
  });
});

it('settles where candidates are related to all others alike: young of two fully inbred parents', () => {
  // Two clones in effect, worth 1 and 2, beside two unrelated fish.
  const coancestry = Float64Array.of(
    ...[1, 1, 0, 0],
    ...[1, 1, 0, 0],
    ...[0, 0, 0.5, 0],
    ...[0, 0, 0, 0.5],
  );
  const problem = {
    ids: ['a', 'b', 'c', 'd'],
    value: Float64Array.of(1, 2, 0, 0),
    coancestry,
    group: Int32Array.of(0, 0, 1, 1),
    totals: [0.5, 0.5],
    least: new Float64Array(4),
    most: new Float64Array(4).fill(0.5),
  };
  const best = bestContributions(problem, 0.375);
  expect([...best.share].map((share) => Number(share.toFixed(6)))).toEqual([0, 0.5, 0.25, 0.25]);
  expect(leftToGain(problem, best.share, 0.375)).toBeLessThan(1e-8);
});
