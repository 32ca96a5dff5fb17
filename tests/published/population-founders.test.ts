import {
  alleleSurvival,
  effectiveAncestors,
  effectiveFounders,
  founderContributions,
  founderGenomeEquivalents,
  genomeEquivalentsByKinship,
} from '@linewright/kinship';
import { buildPedigree, pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';

// Lacy RC (1989) Zoo Biology 8:111-123, hypothetical pedigree of three founders and four descendants; f_e and f_g printed to two
// decimals. Basis: from memory, confirmed by independent computation (all 256 meioses enumerated).
describe('founder statistics of the example of Lacy (1989)', () => {
  const example = buildPedigree([
    { id: 'A' },
    { id: 'B' },
    { id: 'E' },
    { id: 'C', sire: 'A', dam: 'B' },
    { id: 'D', sire: 'A', dam: 'B' },
    { id: 'F', sire: 'E', dam: 'D' },
    { id: 'G', sire: 'E', dam: 'D' },
  ]);
  const living = ['C', 'D', 'F', 'G'].map((id) => example.indexOf(id));
  const retained = founderGenomeEquivalents(example, living, { seed: 1 });
  const founder = (id: string) => {
    const found = retained.founders.find((entry) => entry.founder === example.indexOf(id));
    if (found === undefined) throw new Error(`${id} is no founder`);
    return found;
  };

  it('gives the founder contributions 3/8, 3/8 and 1/4', () => {
    const contributions = founderContributions(example, living);
    expect(contributions.map((entry) => entry.contribution)).toEqual([3 / 8, 3 / 8, 1 / 4]);
    expect(founder('E').contribution).toBe(1 / 4);
  });

  it('gives f_e = 32/11, printed 2.91', () => {
    const effective = effectiveFounders(founderContributions(example, living));
    expect(effective).toBeCloseTo(32 / 11, 12);
    expect(Math.abs(effective - 2.91)).toBeLessThanOrEqual(0.005);
  });

  it('retains 3/4 of each founder exactly, and gives f_g = 24/11, printed 2.18', () => {
    expect(['A', 'B', 'E'].map((id) => founder(id).retention)).toEqual([3 / 4, 3 / 4, 3 / 4]);
    expect(retained.exact).toBe(true);
    expect(retained.equivalents).toBeCloseTo(24 / 11, 12);
    expect(Math.abs(retained.equivalents - 2.18)).toBeLessThanOrEqual(0.005);
  });

  it('agrees with enumeration of all meioses', () => {
    // Every descendant draws one of two genes from either parent: 8 coins, 256 equally likely outcomes.
    let kept = 0;
    for (let coins = 0; coins < 256; coins++) {
      const coin = (k: number): number => (coins >> k) & 1;
      const c = ['A', 'B'].map((id, k) => `${id}${coin(k)}`);
      const d = ['A', 'B'].map((id, k) => `${id}${coin(2 + k)}`);
      const f = [`E${coin(4)}`, d[coin(5)]!];
      const g = [`E${coin(6)}`, d[coin(7)]!];
      if ([...c, ...d, ...f, ...g].includes('A0')) kept++;
    }
    const survival = alleleSurvival(
      example,
      { founder: example.indexOf('A'), unknownParent: false },
      living,
    );
    expect(survival?.oneGene).toBe(kept / 256);
  });

  it('gives another quantity by mean kinship: 16/9', () => {
    expect(genomeEquivalentsByKinship(example, living)).toBeCloseTo(16 / 9, 12);
  });
});

// Boichard D, Maignel L & Verrier E (1997) Genet Sel Evol 29:5-23: definition of f_a, members of the reference population no
// candidates. Basis: computed reference on a pedigree of our own; no printed number.
describe('effective ancestors behind a bottleneck', () => {
  const none = -1;
  const sire = [
    none,
    none,
    none,
    none,
    none,
    none,
    none,
    none,
    0,
    2,
    4,
    6,
    8,
    10,
    10,
    10,
    10,
    12,
    12,
    12,
    12,
  ];
  const dam = [
    none,
    none,
    none,
    none,
    none,
    none,
    none,
    none,
    1,
    3,
    5,
    7,
    9,
    11,
    11,
    11,
    11,
    13,
    14,
    15,
    16,
  ];
  const bottleneck = pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam));
  const reference = [17, 18, 19, 20];

  it('sees eight equal founders', () => {
    expect(effectiveFounders(founderContributions(bottleneck, reference))).toBeCloseTo(8, 12);
  });

  it('sees 8/3 ancestors: one sire explains 1/2, his mates’ two parents 1/4 each', () => {
    const result = effectiveAncestors(bottleneck, reference);
    expect(result.ancestors.map((entry) => [entry.founder, entry.marginal])).toEqual([
      [12, 1 / 2],
      [10, 1 / 4],
      [11, 1 / 4],
    ]);
    expect(result.effective).toBeCloseTo(8 / 3, 12);
    expect(result.explained).toBe(1);
  });

  it('bounds f_a when the list is cut off', () => {
    const part = effectiveAncestors(bottleneck, reference, { limit: 1 });
    expect(part.explained).toBe(1 / 2);
    expect(part.lowest).toBeLessThanOrEqual(8 / 3);
    expect(part.highest).toBeGreaterThanOrEqual(8 / 3);
  });
});
