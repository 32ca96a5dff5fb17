import {
  inbreedingCoefficients,
  inbreedingPathsOf,
  tabularRelationship,
} from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { explicitPedigree } from './explicit-pedigree.js';
import { habsburgRows } from './habsburg-rows.js';

// Source and basis: habsburg-rows.ts.
const habsburgs = explicitPedigree(habsburgRows);

/** Whole numbers over 2^80. */
const UNIT = 1n << 80n;

/** Coancestry by the defining recursion, in exact fractions: shares no code with the library. */
function exactCoancestry(pedigree: Pedigree): (a: number, b: number) => bigint {
  const known = new Map<string, bigint>();
  const theta = (a: number, b: number): bigint => {
    if (a < 0 || b < 0) return 0n;
    if (a < b) return theta(b, a);
    const key = `${a} ${b}`;
    let value = known.get(key);
    if (value === undefined) {
      const s = pedigree.sire[a]!;
      const d = pedigree.dam[a]!;
      value = a === b ? (UNIT + theta(s, d)) / 2n : (theta(s, b) + theta(d, b)) / 2n;
      known.set(key, value);
    }
    return value;
  };
  return theta;
}

describe('the core of the Habsburg pedigree', () => {
  const theta = exactCoancestry(habsburgs);
  const exactInbreeding = (i: number): bigint => theta(habsburgs.sire[i]!, habsburgs.dam[i]!);

  it('has the same F by paths, by the tabular method and by the fast method, as exact fractions', () => {
    const fast = inbreedingCoefficients(habsburgs);
    const table = tabularRelationship(habsburgs);
    for (let i = 0; i < habsburgs.size; i++) {
      const { paths, complete } = inbreedingPathsOf(habsburgs, i, { limit: Infinity });
      expect(complete).toBe(true);
      const byPaths = paths.reduce(
        (sum, { fish, ancestor }) =>
          sum + ((UNIT + exactInbreeding(ancestor)) >> BigInt(fish.length)),
        0n,
      );
      expect(byPaths).toBe(exactInbreeding(i));
      const exact = Number(exactInbreeding(i)) / Number(UNIT);
      expect(fast[i]).toBe(exact);
      expect(table[i * habsburgs.size + i]! - 1).toBe(exact);
    }
  });

  it('makes Charles II the most inbred, above the child of full sibs in this cut or near it', () => {
    const charles = habsburgs.indexOf('Charles II of Spain');
    const result = inbreedingPathsOf(habsburgs, charles, { limit: Infinity });
    const all = inbreedingCoefficients(habsburgs);
    expect(Math.max(...all)).toBe(result.coefficient);
    // The whole published pedigree gives 0.254; a cut can only give less.
    expect(result.coefficient).toBeGreaterThan(0.2);
    expect(result.coefficient).toBeLessThan(0.254);
    expect(result.pathCount).toBe(result.paths.length);
    expect(habsburgs.ids[result.ancestors[0]!.ancestor]).toMatch(/Philip III|Margaret/);
  });
});
