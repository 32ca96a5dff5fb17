import { allGenotypes, defineLocus, type JointPosterior, type Locus } from '@linewright/heredity';
import { describe, expect, it } from 'vitest';
import { leftOutWords, pairShares } from './mixture.js';

/** A locus of seven alleles, all to be told apart: 28 genotypes, 784 pairs of them. */
const wide = (id: string, hiddenBy: Locus['hiddenBy'] = []): Locus => {
  const symbols = Array.from({ length: 7 }, (_, k) => `${id}${k}`);
  return defineLocus({
    id,
    name: id,
    alleles: symbols.map((symbol) => ({ id: symbol, symbol, name: symbol })),
    phenotypes: [
      { id: 'plain', name: 'plain' },
      { id: 'pale', name: 'pale' },
    ],
    expression: [
      { genotype: `${id}6/${id}6`, shows: [{ phenotype: 'pale', probability: '1' }] },
      { genotype: '-/-', shows: [{ phenotype: 'plain', probability: '1' }] },
    ],
    hiddenBy,
  });
};

/** One pair has half of the chance, all others share the rest alike. */
const jointAt = (locus: Locus): JointPosterior[] => {
  const genotypes = allGenotypes(locus);
  const others = genotypes.length ** 2 - 1;
  return genotypes.flatMap((sire, s) =>
    genotypes.map((dam, d) => ({ sire, dam, probability: s + d === 0 ? 1 / 2 : 1 / (2 * others) })),
  );
};

describe('a pair that may be more things than are gone through', () => {
  const hider = wide('h');
  const locus = wide('t', [{ locus: 'h', phenotypes: ['pale'], why: 'for this test' }]);

  it('says how many were left out, and how likely they are together', () => {
    const [own, hiding] = [jointAt(locus), [{ locus: hider, joint: jointAt(hider) }]];
    // Both off the likeliest: 783 x 783 of 784 x 784, each 1 / 4 / 783^2; together a quarter.
    const words = leftOutWords(locus, own, hiding);
    expect(words).toContain((784 ** 2).toLocaleString('en'));
    expect(words).toContain(`${(783 ** 2).toLocaleString('en')} were not counted`);
    expect(words).toContain('together their chance is 25 %');
    const kept = pairShares(locus, own, hiding);
    expect(kept).toHaveLength(784 ** 2 - 783 ** 2);
    expect(kept.reduce((sum, one) => sum + one.weight, 0)).toBeCloseTo(3 / 4, 9);
  });

  it('says nothing where all are gone through', () => {
    expect(leftOutWords(locus, jointAt(locus), [])).toBeNull();
  });
});
