/**
 * Optimal contributions against printed examples of quadratic programmes, and a set of half sibs worked out in closed form.
 */
import { coancestryBlock } from '@linewright/kinship';
import { bestContributions, contributionFrontier, leastCoancestry } from '@linewright/mating';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { expectPrinted } from './scores-of-rows.js';

const sumOf = (of: readonly number[], each: (value: number, k: number) => number): number =>
  of.reduce((sum, value, k) => sum + each(value, k), 0);

/** F'SF, of forms F row by row. */
const squareOfForms = (forms: readonly (readonly number[])[], S: readonly (readonly number[])[]) =>
  Float64Array.from(
    forms[0]!.flatMap((_, a) =>
      forms[0]!.map((__, b) =>
        sumOf(
          S.map((row, i) => sumOf(row, (each, j) => forms[i]![a]! * each * forms[j]![b]!)),
          (each) => each,
        ),
      ),
    ),
  );

const oneGroup = (size: number) => ({ group: new Int32Array(size), totals: [1] });

describe('three assets', () => {
  // Zivot E, Introduction to Computational Finance and Financial Econometrics (three assets); data and weights from memory. Weights may
  // be negative there; those of least variance are not, so the bound at 0 changes nothing.
  const problem = {
    ids: ['first', 'second', 'third'],
    value: Float64Array.of(0.0427, 0.0015, 0.0285),
    coancestry: Float64Array.of(
      ...[0.01, 0.0018, 0.0011],
      ...[0.0018, 0.0109, 0.0026],
      ...[0.0011, 0.0026, 0.0199],
    ),
    ...oneGroup(3),
  };

  it('of least variance', () => {
    const least = leastCoancestry(problem);
    expectPrinted(least.share, [0.441, 0.366, 0.193], 3, 1);
    expectPrinted([least.value, Math.sqrt(least.coancestry)], [0.0249, 0.0727], 4, 1);
  });

  it('of greatest mean: all to the best', () => {
    expect([...contributionFrontier(problem).at(-1)!.shares]).toEqual([1]);
    expect(bestContributions(problem, 1).value).toBeCloseTo(0.0427, 12);
  });
});

describe('three assets whose weights may be negative', () => {
  // As above. c = weight + 2, so that c >= 0 leaves all printed weights free; the last candidate, alone in its group, takes the 2 off again.
  const covariance = [
    [0.01, 0.0018, 0.0011],
    [0.0018, 0.0109, 0.0026],
    [0.0011, 0.0026, 0.0199],
  ];
  const mean = [0.0427, 0.0015, 0.0285];
  const SHIFT = 2;
  const shifts = [
    [1, 0, 0, -SHIFT],
    [0, 1, 0, -SHIFT],
    [0, 0, 1, -SHIFT],
  ];
  const problem = {
    ids: ['first', 'second', 'third', 'shift'],
    value: Float64Array.from([0, 1, 2, 3], (k) => sumOf(mean, (each, i) => each * shifts[i]![k]!)),
    coancestry: squareOfForms(shifts, covariance),
    group: Int32Array.of(0, 0, 0, 1),
    totals: [1 + 3 * SHIFT, 1],
  };

  it.each([
    ['of least variance for a mean of 0.0427', [0.827, -0.0907, 0.263]],
    ['of most mean beyond 0.005 for their deviation', [1.027, -0.326, 0.299]],
  ])('%s', (_, printed) => {
    // Of greatest mean at that variance: the same weights from the other side.
    const variance = sumOf(printed, (a, i) => sumOf(printed, (b, j) => a * b * covariance[i]![j]!));
    const { share } = bestContributions(problem, variance);
    expectPrinted(
      Array.from(share.slice(0, 3), (each) => each - SHIFT),
      printed,
      3,
      1,
    );
  });
});

describe('a quadratic programme', () => {
  // Goldfarb D & Idnani A (1983) Math Program 27:1-33, the example in the documentation of a solver in R; from memory, confirmed by
  // computation: the least of x'x / 2 - 5 x2 where -4 x1 - 3 x2 >= -8, 2 x1 + x2 >= 2 and -2 x2 + x3 >= 0.
  it('has the printed answer', () => {
    // What is left of each bound takes the place of x; one candidate of its own group is the 1 of the constants, and one that counts for
    // nothing takes up what the sum leaves.
    const ROOM = 20;
    const x = [
      [0.5, 1.5, 0, 0, -1],
      [-1, -2, 0, 0, 4],
      [-2, -4, 1, 0, 8],
    ];
    // x'x / 2 - 5 x2 + 12.5 is half the squared distance from 0, 5, 0.
    const fromTop = x.map((row, k) => row.with(4, row[4]! - (k === 1 ? 5 : 0)));
    const { share, coancestry } = leastCoancestry({
      ids: ['first bound', 'second', 'third', 'room', 'one'],
      value: new Float64Array(5),
      coancestry: squareOfForms(fromTop, [
        [0.5, 0, 0],
        [0, 0.5, 0],
        [0, 0, 0.5],
      ]),
      group: Int32Array.of(0, 0, 0, 0, 1),
      totals: [ROOM, 1],
    });
    const found = x.map((row) => sumOf(row, (each, k) => each * share[k]!));
    expectPrinted(found, [0.47619, 1.047619, 2.095238], 6, 0.6);
    expectPrinted([coancestry - 12.5], [-2.380952], 6, 0.6);
  });
});

describe('half sibs', () => {
  // Minimum mean kinship: Ballou JD & Lacy RC (1995); Fernandez J & Toro MA (1999) (method). A set of our own, in closed form.
  const pedigree = buildPedigree([
    ...['S', 'D1', 'D2', 'x'].map((id) => ({ id })),
    { id: 'a', sire: 'S', dam: 'D1' },
    { id: 'b', sire: 'S', dam: 'D1' },
    { id: 'c', sire: 'S', dam: 'D2' },
    { id: 'y', sire: 'x', dam: 'D2' },
  ]);
  const ids = ['a', 'b', 'c', 'y'];
  const places = ids.map((id) => pedigree.indexOf(id));
  const coancestry = coancestryBlock(pedigree, places, places);

  it('of least mean coancestry', () => {
    const least = leastCoancestry({ ids, value: new Float64Array(4), coancestry, ...oneGroup(4) });
    // 12, 12, 10 and 18 of 52; 41 of 208.
    [12, 12, 10, 18].forEach((part, k) => expect(least.share[k]).toBeCloseTo(part / 52, 9));
    expectPrinted(least.share, [0.230769, 0.230769, 0.192308, 0.346154], 6, 1);
    expect(least.coancestry).toBeCloseTo(41 / 208, 12);
  });
});
