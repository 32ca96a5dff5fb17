/**
 * Optimal contributions against printed examples of quadratic programmes, and a set of half sibs worked out in closed form.
 */
import { coancestryBlock } from '@linewright/kinship';
import { bestContributions, contributionFrontier, leastCoancestry } from '@linewright/mating';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { expectPrinted } from './scores-of-rows.js';

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
