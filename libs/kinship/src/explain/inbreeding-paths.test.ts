import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { eachInbreedingPath, inbreedingPaths, inbreedingPathsOf } from './inbreeding-paths.js';

const pedigree = (...parents: [number, number][]) =>
  pedigreeFromArrays(
    Int32Array.from(parents, ([sire]) => sire),
    Int32Array.from(parents, ([, dam]) => dam),
  );
const founder: [number, number] = [-1, -1];

describe('inbreedingPaths', () => {
  it('lists two paths of three fish for full sibs', () => {
    const { coefficient, paths, pathCount, explained, complete } = inbreedingPaths(
      pedigree(founder, founder, [0, 1], [0, 1]),
      2,
      3,
    );
    expect(coefficient).toBe(0.25);
    expect(pathCount).toBe(2);
    expect(complete).toBe(true);
    expect(explained).toBe(1);
    expect(paths.map((path) => path.fish)).toEqual([
      [2, 0, 3],
      [2, 1, 3],
    ]);
    expect(paths.map((path) => path.contribution)).toEqual([0.125, 0.125]);
  });

  it('takes a sire that is the ancestor of the dam as the end of its path', () => {
    const { paths, coefficient } = inbreedingPaths(pedigree(founder, founder, [0, 1]), 0, 2);
    expect(coefficient).toBe(0.25);
    expect(paths).toEqual([
      {
        ancestor: 0,
        otherFounder: null,
        fish: [0, 2],
        sireSteps: 0,
        damSteps: 1,
        ancestorInbreeding: 0,
        contribution: 0.25,
      },
    ]);
  });

  it('raises a path by the F of an inbred common ancestor', () => {
    // 4 comes from full sibs (F 1/4); its young by two unrelated mates are half sibs.
    const halfSibs = pedigree(
      founder,
      founder,
      [0, 1],
      [0, 1],
      [2, 3],
      founder,
      founder,
      [4, 5],
      [4, 6],
    );
    const { paths, coefficient } = inbreedingPaths(halfSibs, 7, 8);
    expect(paths).toHaveLength(1);
    expect(paths[0]!.ancestorInbreeding).toBe(0.25);
    expect(paths[0]!.contribution).toBe(1.25 / 8);
    expect(coefficient).toBe(1.25 / 8);
  });

  it('gives no paths for unrelated fish and for fish with an unknown parent', () => {
    const half = pedigree(founder, founder, [0, -1], [1, -1]);
    expect(inbreedingPaths(half, 2, 3)).toEqual({
      coefficient: 0,
      paths: [],
      pathCount: 0,
      explained: 1,
      complete: true,
      ancestors: [],
    });
    expect(inbreedingPathsOf(half, 2).pathCount).toBe(0);
    expect(inbreedingPathsOf(half, 2).coefficient).toBe(0);
  });

  it('finds no path twice through one fish, though both lines could climb through it', () => {
    // 2's only parents are above both 3 and 4: paths may turn at 2, never pass it on both sides.
    const narrow = pedigree(founder, founder, [0, 1], [2, -1], [2, -1]);
    const { paths } = inbreedingPaths(narrow, 3, 4);
    expect(paths.map((path) => path.fish)).toEqual([[3, 2, 4]]);
  });

  it('lists the largest first, says what share the list explains, and counts the rest', () => {
    const parents: [number, number][] = [founder, founder];
    for (let generation = 0; generation < 20; generation++) {
      const at = parents.length;
      parents.push([at - 2, at - 1], [at - 2, at - 1]);
    }
    const sibs = pedigree(...parents);
    const result = inbreedingPaths(sibs, sibs.size - 2, sibs.size - 1, { limit: 10 });
    expect(result.paths).toHaveLength(10);
    expect(result.complete).toBe(false);
    // At every pair of sibs both lines may turn at either parent (2 ways) or part to different parents (2 ways), which are
    // again a pair of sibs: N(t) = 2 + 2 N(t - 1), N(1) = 2.
    expect(result.pathCount).toBe(2 ** 20 * 2 - 2);
    const sum = result.paths.reduce((total, path) => total + path.contribution, 0);
    expect(result.explained).toBeCloseTo(sum / result.coefficient, 12);
    for (let k = 1; k < 10; k++) {
      expect(result.paths[k]!.contribution).toBeLessThanOrEqual(result.paths[k - 1]!.contribution);
    }
    const byAncestor = result.ancestors.reduce((total, entry) => total + entry.contribution, 0);
    expect(byAncestor).toBeCloseTo(result.coefficient, 12);
    expect(result.ancestors.reduce((total, entry) => total + entry.pathCount!, 0)).toBe(
      result.pathCount,
    );
  });

  it('stays honest when the budget of states runs out', () => {
    const wide: [number, number][] = Array.from({ length: 8 }, () => founder);
    for (let generation = 0; generation < 6; generation++) {
      const at = wide.length - 8;
      for (let k = 0; k < 8; k++) wide.push([at + k, at + ((k + 1 + generation) % 8)]);
    }
    const fish = pedigree(...wide);
    const whole = inbreedingPaths(fish, fish.size - 2, fish.size - 1, { limit: 1e6 });
    const part = inbreedingPaths(fish, fish.size - 2, fish.size - 1, { limit: 1e6, budget: 40 });
    expect(whole.complete).toBe(true);
    expect(part.coefficient).toBe(whole.coefficient);
    expect(part.pathCount).toBeNull();
    expect(part.complete).toBe(false);
    expect(part.explained).toBeLessThan(1);
    expect(part.paths.length).toBeLessThan(whole.paths.length);
  });

  it('generates lazily', () => {
    const generator = eachInbreedingPath(pedigree(founder, founder, [0, 1], [0, 1]), 2, 3);
    expect(generator.next().value?.ancestor).toBe(0);
    expect(generator.next().value?.ancestor).toBe(1);
    expect(generator.next().done).toBe(true);
  });

  it('refuses a limit that is no count', () => {
    expect(() => inbreedingPaths(pedigree(founder, founder), 0, 1, { limit: -1 })).toThrow(
      expect.objectContaining({ code: 'KINSHIP_BAD_ARGUMENT' }),
    );
  });
});
