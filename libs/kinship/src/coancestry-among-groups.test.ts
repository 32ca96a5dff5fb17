import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { coancestryAmongGroups } from './coancestry-among-groups.js';
import { coancestry } from './coancestry.js';

// 2 and 3 = 0 x 1; 4 = 2 x 3; 5 a founder; 6 = 4 x 5
const pedigree = pedigreeFromArrays(
  Int32Array.from([-1, -1, 0, 0, 2, -1, 4]),
  Int32Array.from([-1, -1, 1, 1, 3, -1, 5]),
);

const byPairs = (some: number[], others: number[]): number => {
  let sum = 0;
  for (const a of some) for (const b of others) sum += coancestry(pedigree, a, b);
  return sum / (some.length * others.length);
};

describe('coancestryAmongGroups', () => {
  const groups = [[2, 3], [4, 6], [5], []];
  const means = coancestryAmongGroups(pedigree, groups);

  it('is the mean of all pairs, within a group each fish with itself too', () => {
    for (let row = 0; row < 3; row++)
      for (let column = 0; column < 3; column++)
        expect(means[row * 4 + column]).toBeCloseTo(byPairs(groups[row]!, groups[column]!), 12);
  });

  it('has no figure for a group without fish', () => {
    for (let k = 0; k < 4; k++) expect([means[3 * 4 + k], means[k * 4 + 3]]).toEqual([NaN, NaN]);
    expect(coancestryAmongGroups(pedigree, [])).toHaveLength(0);
  });
});
