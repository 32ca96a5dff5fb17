import { coancestry, inbreedingCoefficients, inbreedingPaths } from '@linewright/kinship';
import { buildPedigree, type Pedigree, seededChance } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { commonAncestors, type CommonAncestry } from './common-ancestors.js';

const pedigree = (...rows: [string, string?, string?][]): Pedigree =>
  buildPedigree(rows.map(([id, sire, dam]) => ({ id, sire: sire ?? null, dam: dam ?? null })));

const of = (
  p: Pedigree,
  sire: string,
  dam: string,
  limit?: number,
  most?: number,
): CommonAncestry =>
  commonAncestors(p, inbreedingCoefficients(p), p.indexOf(sire), p.indexOf(dam), limit, most);

describe('commonAncestors', () => {
  it('gives each shared parent of full siblings 1/8', () => {
    const p = pedigree(['A'], ['B'], ['X', 'A', 'B'], ['Y', 'A', 'B']);
    const { ancestors, count, accountedFor } = of(p, 'X', 'Y');
    expect(ancestors.map(({ id, contribution }) => [id, contribution])).toEqual([['B', 0.125], ['A', 0.125]]); // prettier-ignore
    expect([count, accountedFor]).toEqual([2, 0.25]);
    expect(ancestors.map(({ pathCount }) => pathCount)).toEqual([1, 1]);
  });

  it('counts the paths of each ancestor as the path method lists them', () => {
    // Sibs of sibs of sibs: the parents' parents are reached over several ways.
    const p = pedigree(['A'], ['B'], ['C', 'A', 'B'], ['D', 'A', 'B'], ['E', 'C', 'D'], ['F', 'C', 'D'], ['G', 'E', 'F'], ['H', 'E', 'F']); // prettier-ignore
    const listed = inbreedingPaths(p, p.indexOf('G'), p.indexOf('H'), { limit: Infinity }).paths;
    const { ancestors, count } = of(p, 'G', 'H', 10);
    expect(count).toBe(6);
    for (const { index, pathCount } of ancestors) {
      expect(pathCount).toBe(listed.filter(({ ancestor }) => ancestor === index).length);
    }
    expect(ancestors.find(({ id }) => id === 'A')?.pathCount).toBe(4);
  });

  it('counts the sire himself when he is put to his daughter', () => {
    const p = pedigree(['A'], ['B'], ['X', 'A', 'B']);
    expect(of(p, 'A', 'X').ancestors).toMatchObject([
      { id: 'A', contribution: 0.25, inbreeding: 0 },
    ]);
  });

  it("raises an inbred ancestor's part by its own F", () => {
    // I comes from full siblings (F = 1/4); X and Y are half siblings through I: (1/2)^3 (1 + 1/4).
    const p = pedigree(['A'], ['B'], ['C', 'A', 'B'], ['D', 'A', 'B'], ['I', 'C', 'D'], ['U'], ['V'], ['X', 'I', 'U'], ['Y', 'I', 'V']); // prettier-ignore
    expect(of(p, 'X', 'Y').ancestors).toMatchObject([
      { id: 'I', contribution: 0.15625, inbreeding: 0.25 },
    ]);
  });

  it('does not count the ancestors behind a fish through which both lineages pass', () => {
    // Every path from X and Y to A and B would pass S twice, so S alone counts.
    const p = pedigree(
      ['A'],
      ['B'],
      ['S', 'A', 'B'],
      ['U'],
      ['V'],
      ['X', 'S', 'U'],
      ['Y', 'S', 'V'],
    );
    expect(of(p, 'X', 'Y')).toMatchObject({ count: 1, accountedFor: 0.125, complete: true });
  });

  it('is empty for unrelated fish', () => {
    const p = pedigree(['A'], ['B'], ['C'], ['D'], ['X', 'A', 'B'], ['Y', 'C', 'D']);
    expect(of(p, 'X', 'Y')).toEqual({ ancestors: [], count: 0, accountedFor: 0, complete: true });
  });

  it('lists no more than asked for but accounts for all', () => {
    const p = pedigree(['A'], ['B'], ['X', 'A', 'B'], ['Y', 'A', 'B']);
    const { ancestors, count, accountedFor } = of(p, 'X', 'Y', 1);
    expect([ancestors.length, count, accountedFor]).toEqual([1, 2, 0.25]);
  });

  it('leaves out the oldest when there are too many, and says so', () => {
    const p = pedigree(
      ['A'],
      ['B'],
      ['C', 'A', 'B'],
      ['D', 'A', 'B'],
      ['X', 'C', 'D'],
      ['Y', 'C', 'D'],
    );
    const all = of(p, 'X', 'Y', 9);
    const some = of(p, 'X', 'Y', 9, 4);
    expect(all.accountedFor).toBe(coancestry(p, p.indexOf('X'), p.indexOf('Y')));
    expect(some.complete).toBe(false);
    expect(some.ancestors).toEqual(all.ancestors.filter(({ id }) => id === 'C' || id === 'D'));
    expect(some.accountedFor).toBeLessThan(all.accountedFor);
  });
});

describe('common ancestors of random pedigrees', () => {
  it('add what the listed paths add, and are all of them', () => {
    const random = seededChance(11);
    let compared = 0;
    for (let pedigree = 0; pedigree < 40; pedigree++) {
      const p = randomPedigree(random, 5, 6);
      const inbreeding = inbreedingCoefficients(p);
      for (let pair = 0; pair < 5; pair++) {
        const [a, b] = [p.size - 1 - Math.floor(random() * 6), Math.floor(random() * p.size)];
        if (a === b) continue;
        const { paths } = inbreedingPaths(p, a, b, { limit: Infinity });
        const found = commonAncestors(p, inbreeding, a, b, Infinity);
        const listed = new Map<number, number>();
        for (const { ancestor, contribution } of paths)
          listed.set(ancestor, (listed.get(ancestor) ?? 0) + contribution);
        expect(new Set(found.ancestors.map(({ index }) => index))).toEqual(new Set(listed.keys()));
        for (const { index, contribution, pathCount } of found.ancestors) {
          expect(contribution).toBeCloseTo(listed.get(index) ?? NaN, 13);
          expect(pathCount).toBe(paths.filter(({ ancestor }) => ancestor === index).length);
        }
        expect(found.accountedFor).toBeCloseTo(coancestry(p, a, b), 13);
        compared += found.count;
      }
    }
    expect(compared).toBeGreaterThan(300);
  });
});

/** Some fish a generation, even numbers male, some parents unknown and some of a generation further back. */
function randomPedigree(random: () => number, generations: number, each: number): Pedigree {
  const rows: { id: string; sire: string | null; dam: string | null }[] = [];
  for (let g = 0; g < generations; g++)
    for (let k = 0; k < each; k++) {
      const parent = (odd: number): string | null => {
        const back = g - 1 - (random() < 0.2 ? 1 : 0);
        if (back < 0 || random() < 0.1) return null;
        return `${back}-${2 * Math.floor((random() * each) / 2) + odd}`;
      };
      const [sire, dam] = [parent(0), parent(1)];
      rows.push({ id: `${g}-${k}`, sire, dam });
    }
  return buildPedigree(rows);
}
