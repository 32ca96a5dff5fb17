import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { coancestry } from '../coancestry.js';
import { ancestralInbreeding } from '../explain/ancestral-inbreeding.js';
import { recentInbreeding } from '../explain/inbreeding-age.js';
import { inbreedingPathsOf } from '../explain/inbreeding-paths.js';
import { inbreedingOrigins } from '../explain/origins.js';
import { meanKinship } from '../relationship-product.js';
import { relationshipMap } from './family-order.js';
import { founderContributions } from './founders.js';
import { lineHealth } from './line-health.js';

describe('200,000 generations of full sibs', { timeout: 60_000 }, () => {
  const size = 400_002;
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  for (let i = 2; i < size; i++) {
    sire[i] = (i & ~1) - 2;
    dam[i] = (i & ~1) - 1;
  }
  const line = pedigreeFromArrays(sire, dam);
  const [brother, sister] = [size - 2, size - 1];

  it('have kinship 1, and founders of one half each', () => {
    // Rounding adds up over so many generations.
    expect(coancestry(line, brother, sister)).toBeCloseTo(1, 9);
    expect(meanKinship(line, [brother, sister])[0]).toBeCloseTo(1, 9);
    expect(founderContributions(line, [brother, sister]).map((f) => f.contribution)).toEqual([
      1 / 2,
      1 / 2,
    ]);
    expect(ancestralInbreeding(line)[sister]).toBeCloseTo(1, 12);
    expect(relationshipMap(line, [brother, sister]).families).toHaveLength(1);
  });

  it('are explained as far as the budget goes, and say so', () => {
    const { paths, pathCount, complete, coefficient } = inbreedingPathsOf(line, sister, {
      limit: 20,
      budget: 20_000,
    });
    expect([paths.length, pathCount, complete]).toEqual([20, null, false]);
    expect(coefficient).toBeCloseTo(1, 12);
    const { origins, complete: all } = inbreedingOrigins(line, sister, { budget: 20_000 });
    expect(all).toBe(false);
    // Half of it arose in the grandparents: each of the two grandparents as one gene with 1/8.
    expect(origins[0]).toMatchObject({ contribution: 1 / 8, meanGenerations: 2 });
    expect(recentInbreeding(line, [sister], 3)[0]?.recent).toBeCloseTo(3 / 8, 12);
  });

  it('have all their figures', () => {
    const health = lineHealth({ pedigree: line, inUse: [brother, sister], seed: 1, replicates: 5 });
    expect(health.byGeneration).toHaveLength(200_001);
    expect(health.meanKinship.value).toBeCloseTo(1, 12);
    expect(health.effective.genomesByKinship.value).toBeCloseTo(1 / 2, 12);
    expect(health.effective.founders.value).toBeCloseTo(2, 12);
    expect(health.effective.ancestors.value).toBeCloseTo(2, 12);
    expect(health.completeness.meanEquivalents).toBe(200_000);
  });
});

describe('one sire with 10,000 young in use, of 100 dams', { timeout: 60_000 }, () => {
  const young = 10_000;
  const sire = new Int32Array(101 + young).fill(-1);
  const dam = new Int32Array(101 + young).fill(-1);
  for (let i = 0; i < young; i++) {
    sire[101 + i] = 0;
    dam[101 + i] = 1 + (i % 100);
  }
  const pedigree = pedigreeFromArrays(sire, dam);
  const inUse = Int32Array.from({ length: young }, (_, i) => 101 + i);

  it('has its figures', () => {
    const { effective, overContributors, rarestFounders } = lineHealth({
      pedigree,
      inUse,
      seed: 1,
      replicates: 20,
    });
    // 1 / (1/4 + 100 (1/200)^2), and 4 x 1 x 100 / 101.
    expect(effective.founders.value).toBeCloseTo(1 / (1 / 4 + 1 / 400), 9);
    expect(effective.sizeFromSexes.value).toBeCloseTo(400 / 101, 12);
    expect(overContributors.founders.map(({ fish }) => fish)).toEqual([0]);
    expect(overContributors.sires).toEqual([]);
    expect(rarestFounders[0]!.carriers).toHaveLength(5);
  });

  it('falls into one family for each dam', () => {
    const { families } = relationshipMap(pedigree, inUse.subarray(0, 600));
    // Half sibs share 1/8, full sibs 1/4; the middle pair is one of half sibs.
    expect(families.map(({ count }) => count)).toEqual(new Array<number>(100).fill(6));
  });
});
