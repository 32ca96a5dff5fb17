import {
  inbreedingCoefficients,
  inbreedingPathsOf,
  tabularRelationship,
} from '@linewright/kinship';
import { buildPedigree, type Pedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

// Core of the Spanish Habsburgs: parentage as published in Alvarez G, Ceballos FC & Quinteiro C (2009) PLoS ONE 4:e5174 (citation from memory), cut to
// 22 matings so that every path can be listed. Basis: computed reference, no printed number for this cut.
const parentage: [string, string, string][] = [
  ['Charles II of Spain', 'Philip IV of Spain', 'Mariana of Austria'],
  ['Philip IV of Spain', 'Philip III of Spain', 'Margaret of Austria 1584'],
  ['Mariana of Austria', 'Ferdinand III HRE', 'Maria Anna of Spain 1606'],
  ['Maria Anna of Spain 1606', 'Philip III of Spain', 'Margaret of Austria 1584'],
  ['Ferdinand III HRE', 'Ferdinand II HRE', 'Maria Anna of Bavaria 1574'],
  ['Ferdinand II HRE', 'Charles II of Inner Austria', 'Maria Anna of Bavaria 1551'],
  ['Margaret of Austria 1584', 'Charles II of Inner Austria', 'Maria Anna of Bavaria 1551'],
  ['Maria Anna of Bavaria 1574', 'William V of Bavaria', 'Renata of Lorraine'],
  ['William V of Bavaria', 'Albert V of Bavaria', 'Anna of Austria 1528'],
  ['Maria Anna of Bavaria 1551', 'Albert V of Bavaria', 'Anna of Austria 1528'],
  ['Anna of Austria 1528', 'Ferdinand I HRE', 'Anna of Bohemia and Hungary'],
  ['Charles II of Inner Austria', 'Ferdinand I HRE', 'Anna of Bohemia and Hungary'],
  ['Renata of Lorraine', 'Francis I of Lorraine', 'Christina of Denmark'],
  ['Christina of Denmark', 'Christian II of Denmark', 'Isabella of Austria 1501'],
  ['Isabella of Austria 1501', 'Philip I of Castile', 'Joanna of Castile'],
  ['Philip III of Spain', 'Philip II of Spain', 'Anna of Austria 1549'],
  ['Anna of Austria 1549', 'Maximilian II HRE', 'Maria of Spain 1528'],
  ['Maximilian II HRE', 'Ferdinand I HRE', 'Anna of Bohemia and Hungary'],
  ['Maria of Spain 1528', 'Charles I of Spain', 'Isabella of Portugal 1503'],
  ['Philip II of Spain', 'Charles I of Spain', 'Isabella of Portugal 1503'],
  ['Charles I of Spain', 'Philip I of Castile', 'Joanna of Castile'],
  ['Ferdinand I HRE', 'Philip I of Castile', 'Joanna of Castile'],
];
const habsburgs = buildPedigree(
  parentage.map(([id, sire, dam]) => ({ id, sire, dam })),
  { unlistedParents: 'add' },
);

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
