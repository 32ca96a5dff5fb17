import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { alleleSurvival } from './allele-survival.js';
import { dropGenes, simulatedInbreeding, simulatedRetention } from './gene-drop.js';

const founder = (fish: number) => ({ founder: fish, unknownParent: false });
// 2 and 3 = 0 x 1; 4 = 2 x 3; 5 = 0 x ?
const small = pedigreeFromArrays(
  Int32Array.from([-1, -1, 0, 0, 2, 0]),
  Int32Array.from([-1, -1, 1, 1, 3, -1]),
);

describe('dropGenes', () => {
  it('hands down only genes that the parents have, from both of them', () => {
    dropGenes(small, { seed: 1, replicates: 200 }, (bySire, byDam) => {
      expect([bySire[0], byDam[0], byDam[5]]).toEqual([0, 1, 11]);
      expect([bySire[2], byDam[2]]).toContain(bySire[4]);
      expect([bySire[3], byDam[3]]).toContain(byDam[4]);
    });
  });

  it('gives the same for one seed, another for another', () => {
    const run = (seed: number) =>
      simulatedInbreeding(small, [4], { seed, replicates: 500 })[0]!.value;
    expect(run(7)).toBe(run(7));
    expect([8, 9, 10, 11].some((seed) => run(seed) !== run(7))).toBe(true);
  });

  it('refuses a seed or a number of replicates that is none', () => {
    for (const options of [
      { seed: 0.5, replicates: 10 },
      { seed: 1, replicates: 1 },
    ]) {
      expect(() => dropGenes(small, options, () => undefined)).toThrow(
        expect.objectContaining({ code: 'KINSHIP_BAD_ARGUMENT' }),
      );
    }
  });
});

describe('alleleSurvival', () => {
  it('loses half with one young, a quarter with two', () => {
    expect(alleleSurvival(small, founder(0), [2])).toEqual({ oneGene: 1 / 2, anyGene: 1 });
    expect(alleleSurvival(small, founder(0), [2, 3])).toEqual({ oneGene: 3 / 4, anyGene: 1 });
  });

  it('follows copies through young that are no longer there', () => {
    // A given gene of 0 reaches 2 and 3 with 1/2 each and 4 from either with 1/2: carried with none 9/16.
    expect(alleleSurvival(small, founder(0), [4])).toEqual({ oneGene: 7 / 16, anyGene: 3 / 4 });
  });

  it('is 1 for a founder in the group, 0 for one without young there', () => {
    expect(alleleSurvival(small, founder(0), [0, 4])?.oneGene).toBe(1);
    expect(alleleSurvival(small, founder(1), [5])).toEqual({ oneGene: 0, anyGene: 0 });
    expect(alleleSurvival(small, { founder: 5, unknownParent: true }, [5])?.oneGene).toBe(1);
  });

  it('gives up when it would take too long', () => {
    expect(alleleSurvival(small, founder(0), [4], { budget: 1 })).toBeNull();
  });

  it('is what gene dropping finds', () => {
    const [first] = simulatedRetention(small, [4], { seed: 3, replicates: 20_000 });
    expect(Math.abs(first!.oneGene.value - 7 / 16)).toBeLessThan(
      4.5 * first!.oneGene.standardError,
    );
    expect(Math.abs(first!.anyGene.value - 3 / 4)).toBeLessThan(4.5 * first!.anyGene.standardError);
  });
});
