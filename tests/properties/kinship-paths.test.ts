import {
  inbreedingCoefficients,
  inbreedingPaths,
  inbreedingPathsOf,
  tabularInbreeding,
  tabularRelationship,
  tracedInbreeding,
  type InbreedingPath,
} from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loopedPedigrees } from './looped-pedigrees.js';

const seed = 20_261_125;

const sumOf = (paths: readonly InbreedingPath[]): number =>
  paths.reduceRight((sum, path) => sum + path.contribution, 0);

/** The textbook's way: all chains up from either side, joined where they end at one fish and share no other. */
function pathsByJoining(pedigree: Pedigree, sire: number, dam: number): string[] {
  const chains = (fish: number): number[][] => [
    [fish],
    ...[pedigree.sire[fish]!, pedigree.dam[fish]!]
      .filter((parent) => parent >= 0)
      .flatMap((parent) => chains(parent).map((chain) => [fish, ...chain])),
  ];
  const found: string[] = [];
  for (const up of chains(sire)) {
    for (const down of chains(dam)) {
      if (up.at(-1) !== down.at(-1)) continue;
      const path = [...up, ...down.slice(0, -1).reverse()];
      if (new Set(path).size === path.length) found.push(path.join(' '));
    }
  }
  return found.sort();
}

describe(`Wright's paths on random looped pedigrees (seed ${seed})`, () => {
  it('sum to the F of every other method, to the last bit, in pedigrees of up to 24 fish', () => {
    let inbred = 0;
    fc.assert(
      fc.property(loopedPedigrees(24), (pedigree) => {
        const fast = inbreedingCoefficients(pedigree);
        const table = tabularRelationship(pedigree);
        const byLevels = tabularInbreeding(pedigree);
        const traced = tracedInbreeding(pedigree);
        for (let i = 0; i < pedigree.size; i++) {
          const { coefficient, paths, complete } = inbreedingPathsOf(pedigree, i, {
            limit: Infinity,
          });
          const sum = sumOf(paths);
          if (sum > 0) inbred++;
          expect(complete).toBe(true);
          expect(sum).toBe(coefficient);
          expect(sum).toBe(fast[i]);
          expect(sum).toBe(byLevels[i]);
          expect(sum).toBe(traced[i]);
          expect(1 + sum).toBe(table[i * pedigree.size + i]);
        }
      }),
      { seed, numRuns: 3000 },
    );
    expect(inbred).toBeGreaterThan(3000);
  });

  it('are the paths found by joining chains, each once', () => {
    fc.assert(
      fc.property(loopedPedigrees(14), fc.nat(), fc.nat(), (pedigree, a, b) => {
        const [sire, dam] = [a % pedigree.size, b % pedigree.size];
        const { paths, pathCount } = inbreedingPaths(pedigree, sire, dam, { limit: Infinity });
        const found = paths.map((path) => path.fish.join(' ')).sort();
        expect(found).toEqual(pathsByJoining(pedigree, sire, dam));
        expect(pathCount).toBe(found.length);
        for (const path of paths) {
          expect(path.fish[path.sireSteps]).toBe(path.ancestor);
          expect(path.fish.length).toBe(path.sireSteps + path.damSteps + 1);
        }
      }),
      { seed, numRuns: 1500 },
    );
  });

  it('come largest first, and a list cut short is the head of the whole', () => {
    fc.assert(
      fc.property(loopedPedigrees(30), fc.nat(20), (pedigree, limit) => {
        const fish = pedigree.size - 1;
        const whole = inbreedingPathsOf(pedigree, fish, { limit: 5000 });
        const part = inbreedingPathsOf(pedigree, fish, { limit });
        expect(part.paths).toEqual(whole.paths.slice(0, limit));
        expect(part.pathCount).toBe(whole.pathCount);
        for (let k = 1; k < whole.paths.length; k++) {
          expect(whole.paths[k]!.contribution).toBeLessThanOrEqual(
            whole.paths[k - 1]!.contribution,
          );
        }
      }),
      { seed, numRuns: 500 },
    );
  });

  it('add up by common ancestor to what the list adds up to', () => {
    fc.assert(
      fc.property(loopedPedigrees(24), (pedigree) => {
        const { paths, ancestors } = inbreedingPathsOf(pedigree, pedigree.size - 1, {
          limit: Infinity,
        });
        for (const entry of ancestors) {
          const own = paths.filter((path) => path.ancestor === entry.ancestor);
          expect(entry.pathCount).toBe(own.length);
          expect(entry.contribution).toBe(sumOf(own));
          expect(entry.shortestSteps).toBe(
            Math.min(...own.map((path) => path.sireSteps + path.damSteps)),
          );
        }
        expect(ancestors.reduce((sum, entry) => sum + (entry.pathCount ?? NaN), 0)).toBe(
          paths.length,
        );
      }),
      { seed, numRuns: 500 },
    );
  });
});
