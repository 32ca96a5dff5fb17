import { findLocus } from '@linewright/heredity';
import { describe, expect, it } from 'vitest';
import { carriedBy, chanceOfCarrying } from './carried-alleles.js';

const locus = findLocus('dt');
const of = (carries: object) => chanceOfCarrying({ carries } as never, locus, 'double');

describe('the chance that a fish carries an allele', () => {
  it('is that of all genotypes with it, however they are written', () => {
    const chances = [
      { genotype: 'Dt/Dt', probability: 0.25 },
      { genotype: 'Dt/dt', probability: 0.6 },
      { genotype: ['double', 'double'], probability: 0.15 },
    ];
    expect(of({ dt: chances })).toBeCloseTo(0.75, 12);
    expect(of({ dt: 'Dt/dt' })).toBe(1);
    expect(of({ dt: ['single', 'single'] })).toBe(0);
    expect(of({ bl: 'Bl/bl' })).toBeNull();
  });

  it('bears chances that were rounded', () => {
    const third = 0.333333333;
    const chances = ['Dt/Dt', 'Dt/dt', 'dt/dt'].map((genotype) => ({
      ...{ genotype, probability: third },
    }));
    expect(of({ dt: chances })).toBeCloseTo(2 / 3, 12);
  });
});

describe('a wanted allele in one fish of its line', () => {
  it('counts the others without the fish itself, and leaves open what is not known', () => {
    const carrying = new Map([
      ['a', 0.5],
      ['b', 1],
      ['c', 0.25],
    ]);
    const allele = { locusId: 'dt', alleleId: 'double', carrying };
    expect(carriedBy({ ...allele, sole: new Map([['b', 0.4]]) }, 'b')).toEqual({
      ...{ locusId: 'dt', alleleId: 'double', chance: 1, others: 0.75, last: 0.4 },
    });
    expect(carriedBy({ ...allele, sole: null }, 'new')).toEqual({
      ...{ locusId: 'dt', alleleId: 'double', chance: null, others: 1.75, last: null },
    });
  });
});
