import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { lineHealth } from './line-health.js';

// Founders 0 to 3; 4, 5 = 0 x 1; 6, 7 = 2 x 3; 8 = 4 x 6, 9 = 5 x 7; 10, 11 = 8 x 9.
const line = pedigreeFromArrays(
  Int32Array.from([-1, -1, -1, -1, 0, 0, 2, 2, 4, 5, 8, 8]),
  Int32Array.from([-1, -1, -1, -1, 1, 1, 3, 3, 6, 7, 9, 9]),
);

describe('lineHealth', () => {
  const health = lineHealth({ pedigree: line, inUse: [10, 11], seed: 1 });

  it('composes the figures, each with what went in', () => {
    expect(health.inbreeding).toMatchObject({ value: 1 / 8, lowest: 1 / 8, highest: 1 / 8 });
    expect(health.effective.founders.value).toBeCloseTo(4, 12);
    expect(health.effective.founders.inputs).toEqual({
      'founders with a part': 4,
      'largest part': 1 / 4,
    });
    expect(health.effective.ancestors.value).toBeCloseTo(2, 12);
    expect(health.effective.sizeFromSexes).toMatchObject({ value: 2, standardError: null });
    // t = 3, so the increase is 1 - (7/8)^(1/2).
    expect(health.effective.sizeFromInbreeding.value).toBeCloseTo(
      1 / (2 * (1 - Math.sqrt(7 / 8))),
      9,
    );
    expect(health.effective.genomesByRetention.standardError).toBeNull();
    // Two parents, two young in use each: (2 x 2 - 1) / (2 - 1 + 0).
    expect(health.effective.sizeFromFamilies).toMatchObject({
      value: 3,
      inputs: { 'parents of the fish in use': 2, 'young in use of each, variance': 0 },
    });
    expect(health.generationInterval).toBeNull();
    // Each with itself (1 + 1/8) / 2, the two full sibs with each other 5/16.
    expect(health.meanKinship.value).toBeCloseTo((9 / 16 + 5 / 16) / 2, 12);
    expect(health.completeness.meanEquivalents).toBe(3);
    expect([...health.completeness.byGeneration]).toEqual([1, 1, 1, 0, 0, 0]);
    expect(health.byGeneration.map((row) => row.mean)).toEqual([0, 0, 0, 1 / 8]);
    expect(health.overContributors).toEqual({ founders: [], sires: [], dams: [] });
    expect(health.rarestFounders).toHaveLength(3);
  });

  it('says null where the records allow nothing', () => {
    const founders = lineHealth({ pedigree: line, inUse: [0], seed: 1 });
    expect(founders.effective.sizeFromSexes.value).toBeNull();
    expect(founders.effective.sizeFromInbreeding.value).toBeNull();
    expect(founders.effective.genomesByKinship.value).toBe(1);
  });

  it('takes families of unequal size, and says null where each parent has one young', () => {
    // 4, 5 of 0 x 1, and 6 of 2 x 3: sizes 2, 2, 1, 1, mean 3/2, variance 1/4: (4 x 3/2 - 1) / (1/2 + 1/6).
    const uneven = lineHealth({ pedigree: line, inUse: [4, 5, 6], seed: 1 });
    expect(uneven.effective.sizeFromFamilies.value).toBeCloseTo(7.5, 12);
    const single = lineHealth({ pedigree: line, inUse: [8], seed: 1 });
    expect(single.effective.sizeFromFamilies.value).toBeNull();
  });

  it('measures the generation interval among the young of the line', () => {
    const bornOn = [0, 0, 0, 0, 100, 100, 100, 100, 250, 270, 400, 400];
    const whole = lineHealth({ pedigree: line, inUse: [10, 11], bornOn, seed: 1 });
    // Of 4 x 6 the son 8 after 150 days; of 5 x 7 the daughter 9 after 170; 4 to 7 after 100 days of their parents.
    expect(whole.generationInterval?.sireToSon).toMatchObject({ mean: 350 / 3, count: 3 });
    const part = lineHealth({ pedigree: line, inUse: [10, 11], line: [8, 9], bornOn, seed: 1 });
    expect(part.generationInterval).toMatchObject({
      sireToSon: { mean: 150, count: 1 },
      damToDaughter: { mean: 170, count: 1 },
      interval: 160,
    });
  });

  it('tells the F of young from what genes drawn at random share', () => {
    // Two unrelated fish: no young of theirs is inbred. Brother and sister: Wright's 1/4 for their young.
    const unrelated = lineHealth({
      pedigree: line,
      inUse: [0, 1],
      sex: ['male', 'female'],
      seed: 1,
    });
    expect(unrelated.maleByFemale.value).toBe(0);
    expect(unrelated.meanKinship.value).toBe(1 / 4);
    const sibs = lineHealth({
      pedigree: line,
      inUse: [4, 5],
      sex: ['male', 'female'],
      seed: 1,
    });
    expect(sibs.maleByFemale.value).toBe(1 / 4);
    expect(sibs.meanKinship.value).toBe(3 / 8);
    const one = lineHealth({ pedigree: line, inUse: [4, 5], sex: ['male', 'unknown'], seed: 1 });
    expect(one.maleByFemale).toMatchObject({
      value: null,
      inputs: { 'males in use': 1, 'females in use': 0, 'of unknown sex, not counted': 1 },
    });
    expect(lineHealth({ pedigree: line, inUse: [4, 5], seed: 1 }).maleByFemale.value).toBeNull();
  });

  it('needs a fish in use', () => {
    expect(() => lineHealth({ pedigree: line, inUse: [], seed: 1 })).toThrow(
      expect.objectContaining({ code: 'KINSHIP_BAD_ARGUMENT' }),
    );
  });
});
