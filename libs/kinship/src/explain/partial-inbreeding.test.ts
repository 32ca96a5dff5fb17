import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { inbreedingByAge, recentInbreeding } from './inbreeding-age.js';
import { inbreedingOrigins } from './origins.js';
import { partialInbreedingByFounder, partialInbreedingThrough } from './partial-inbreeding.js';

// 2 and 3 are full sibs from 0 x 1; 4 = 2 x 3 (F 1/4); 5, 6 founders; 7 = 4 x 5, 8 = 4 x 6; 9 = 7 x 8.
const line = pedigreeFromArrays(
  Int32Array.from([-1, -1, 0, 0, 2, -1, -1, 4, 4, 7]),
  Int32Array.from([-1, -1, 1, 1, 3, -1, -1, 5, 6, 8]),
);

describe('partial inbreeding', () => {
  it('of the young of full sibs is half from either grandparent', () => {
    const { sources, values, inbreeding } = partialInbreedingByFounder(line, [4]);
    expect(sources.map((source) => source.founder)).toEqual([0, 1]);
    expect([...values]).toEqual([1 / 8, 1 / 8]);
    expect([...inbreeding]).toEqual([1 / 4]);
  });

  it('by founder looks through an inbred common ancestor; through that ancestor it is all of F', () => {
    const founders = partialInbreedingByFounder(line, [9]);
    expect(founders.inbreeding[0]).toBe(5 / 32);
    expect([...founders.values]).toEqual([5 / 64, 5 / 64, 0, 0]);
    expect([...partialInbreedingThrough(line, [9, 4], [4, 0]).values]).toEqual([
      5 / 32,
      5 / 64,
      1 / 4,
      1 / 8,
    ]);
  });

  it('takes the unknown parent of a half-known fish for a founder', () => {
    // 1 = 0 x ?, 2 = 1 x founder, 3 = 1 x founder, young of 2 and 3: F = 1/8, half of it from the unknown.
    const half = pedigreeFromArrays(
      Int32Array.from([-1, 0, -1, -1, 1, 1, 4]),
      Int32Array.from([-1, -1, -1, -1, 2, 3, 5]),
    );
    const { sources, values } = partialInbreedingByFounder(half, [6]);
    const from = (founder: number, unknownParent: boolean) =>
      values[sources.findIndex((s) => s.founder === founder && s.unknownParent === unknownParent)];
    expect(from(1, true)).toBe(1 / 16);
    expect(from(0, false)).toBe(1 / 16);
  });
});

describe('partial inbreeding through an ancestor', () => {
  it('is not handed to the full sibs of the ancestor', () => {
    // 4 and 5 are full sibs out of full sibs; each has F = 1/4, and nothing of it came through the other.
    const sibs = pedigreeFromArrays(
      Int32Array.of(-1, -1, 0, 0, 2, 2, 4),
      Int32Array.of(-1, -1, 1, 1, 3, 3, 5),
    );
    expect([...partialInbreedingThrough(sibs, [4, 5, 6], [4]).values]).toEqual([0.25, 0, 0]);
    expect([...partialInbreedingThrough(sibs, [4, 5, 6], [5]).values]).toEqual([0, 0.25, 0]);
  });
});

describe('origins and age of inbreeding', () => {
  it('credits the ancestor in which the two genes were last one', () => {
    const { coefficient, origins, meanGenerations } = inbreedingOrigins(line, 9);
    expect(coefficient).toBe(5 / 32);
    // Same gene of 4: (1/2)^3; its other half, (1/2)^3 x F of 4, goes back to its grandparents, four generations up.
    expect(origins).toEqual([
      { ancestor: 4, contribution: 1 / 8, meanGenerations: 2 },
      { ancestor: 1, contribution: 1 / 64, meanGenerations: 4 },
      { ancestor: 0, contribution: 1 / 64, meanGenerations: 4 },
    ]);
    expect(meanGenerations).toBeCloseTo((2 * 8 + 4 * 2) / 10, 12);
  });

  it('splits F at the generations looked back', () => {
    expect([...inbreedingByAge(line, 9)]).toEqual([0, 1 / 8, 1 / 8, 5 / 32]);
    expect(recentInbreeding(line, [9, 4], 2)).toEqual([
      { inbreeding: 5 / 32, recent: 1 / 8, old: 1 / 32 },
      { inbreeding: 1 / 4, recent: 1 / 4, old: 0 },
    ]);
    expect(() => recentInbreeding(line, [9], 0)).toThrow(
      expect.objectContaining({ code: 'KINSHIP_BAD_ARGUMENT' }),
    );
  });
});
