import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { relationshipMap } from './family-order.js';

// Two spawns of three full sibs from unrelated pairs, and one unrelated fish; listed mixed.
const tank = pedigreeFromArrays(
  Int32Array.from([-1, -1, -1, -1, -1, 0, 2, 0, 2, 0, 2]),
  Int32Array.from([-1, -1, -1, -1, -1, 1, 3, 1, 3, 1, 3]),
);

describe('relationshipMap', () => {
  const map = relationshipMap(tank, [5, 6, 4, 7, 8, 9, 10]);

  it('puts sibs side by side, in blocks', () => {
    const spawn = (fish: number): number => tank.sire[fish]!;
    expect(map.order.map(spawn).join(' ')).toMatch(
      /^(0 0 0|2 2 2|-1) (0 0 0|2 2 2|-1) (0 0 0|2 2 2|-1)$/,
    );
    expect(map.families.map((family) => family.count).sort()).toEqual([1, 3, 3]);
    expect(Math.max(...map.families.map((family) => family.joinedAt))).toBe(1 / 4);
  });

  it('counts from the middle pair: 15 of 21 pairs are unrelated', () => {
    expect(map.familyAt).toBe(1 / 8);
  });

  it('tells spawns of related parents apart, and takes one spawn alone for one family', () => {
    // Full sibs 2 to 5 of 0 x 1; two spawns of three, of 2 x 3 and of 4 x 5: 3/8 within, 1/4 between.
    const line = pedigreeFromArrays(
      Int32Array.from([-1, -1, 0, 0, 0, 0, 2, 4, 2, 4, 2, 4]),
      Int32Array.from([-1, -1, 1, 1, 1, 1, 3, 5, 3, 5, 3, 5]),
    );
    const young = [6, 7, 8, 9, 10, 11];
    const { families, familyAt } = relationshipMap(line, young);
    expect(families.map(({ count, joinedAt }) => [count, joinedAt])).toEqual([
      [3, 3 / 8],
      [3, 3 / 8],
    ]);
    expect(familyAt).toBe(1 / 4 + (3 / 4) * (1 / 8));
    const spawn = relationshipMap(line, [6, 8, 10]);
    expect([spawn.families.length, spawn.familyAt]).toEqual([1, 1 / 8]);
    expect(relationshipMap(line, [0, 1]).families).toHaveLength(2);
  });

  it('keeps full sibs together where the others are closer still', () => {
    // Eight full sibs of 0 x 1 in four pairs, two young each: 3/8 within, 1/4 between; and two sibs of strangers, 1/4.
    const sibs = [2, 3, 4, 5, 6, 7, 8, 9];
    const pairs = [2, 4, 6, 8, 10];
    const sire = [-1, -1, ...sibs.map(() => 0), -1, -1, ...pairs, ...pairs];
    const dam = [-1, -1, ...sibs.map(() => 1), -1, -1, ...[...pairs, ...pairs].map((p) => p + 1)];
    const stock = pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam));
    const young = Array.from({ length: 10 }, (_, k) => 12 + k);
    const { families, familyAt, order } = relationshipMap(stock, young);
    expect(familyAt).toBe(1 / 4 + (3 / 4) * (1 / 8));
    expect(families.map(({ count }) => count)).toEqual([2, 2, 2, 2, 2]);
    for (const { start, joinedAt } of families) {
      const strangers = sire[order[start]!] === 10;
      expect([sire[order[start + 1]!], joinedAt]).toEqual([
        sire[order[start]!],
        strangers ? 1 / 4 : 3 / 8,
      ]);
    }
  });

  it('gives the coancestries in that order', () => {
    expect(map.coancestry[0]).toBe(1 / 2);
    const first = map.families[0]!;
    if (first.count > 1) expect(map.coancestry[1]).toBe(1 / 4);
    expect(map.coancestry[map.order.length - 1]).toBe(0);
  });

  it('makes one family of all when asked to join at nothing', () => {
    expect(relationshipMap(tank, [5, 6, 4], { familyAt: 0 }).families).toHaveLength(1);
    expect(relationshipMap(tank, [5]).families).toEqual([{ start: 0, count: 1, joinedAt: 0 }]);
  });
});
