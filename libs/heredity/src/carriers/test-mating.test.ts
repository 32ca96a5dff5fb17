import { describe, expect, it } from 'vitest';
import { findLocus } from '../catalogue/catalogue.js';
import { rankTestMatings, testMatingWorth } from './test-mating.js';

const locus = findLocus('dt');
const maybe = [
  { genotype: 'Dt/Dt', probability: '1/2' },
  { genotype: 'Dt/dt', probability: '1/2' },
];

describe('testMatingWorth', () => {
  it('of one young of a recessive partner: I = H(1/4) - 1/2 bits, worked by hand', () => {
    // Doubles come only of a carrier, one in two: P(double) = 1/4; given a carrier the outcome has 1 bit, else 0.
    const h = -(0.25 * Math.log2(0.25) + 0.75 * Math.log2(0.75));
    const worth = testMatingWorth({ locus, fish: maybe, partner: 'dt/dt', fry: 1 });
    expect(worth.uncertainty).toBeCloseTo(1, 12);
    expect(worth.bits).toBeCloseTo(h - 0.5, 12);
  });
  it('nears the whole uncertainty with many fry, and never passes it', () => {
    const worth = testMatingWorth({ locus, fish: maybe, partner: 'dt/dt', fry: 40 });
    expect(worth.bits).toBeGreaterThan(0.999999);
    expect(worth.bits).toBeLessThanOrEqual(1);
  });
  it('is nothing with a partner that hides everything, and for a known fish', () => {
    expect(testMatingWorth({ locus, fish: maybe, partner: 'Dt/Dt', fry: 40 }).bits).toBe(0);
    expect(testMatingWorth({ locus, fish: 'Dt/dt', partner: 'dt/dt', fry: 40 }).bits).toBe(0);
  });
  it('refuses fry that are not a number of fish', () => {
    expect(() => testMatingWorth({ locus, fish: maybe, partner: 'dt/dt', fry: 2.5 })).toThrowError(
      expect.objectContaining({ code: 'COUNT_NOT_WHOLE' }) as Error,
    );
  });
});

describe('rankTestMatings', () => {
  it('puts the recessive partner first: 5 fry against 11 of a carrier, none with a clear fish', () => {
    const ranked = rankTestMatings({
      locus,
      fish: maybe,
      allele: 'dt',
      fry: 20,
      partners: [
        { name: 'clear', genotype: 'Dt/Dt' },
        { name: 'carrier', genotype: 'Dt/dt' },
        { name: 'double', genotype: 'dt/dt' },
        { name: 'its sister', genotype: maybe },
      ],
    });
    expect(ranked.map((one) => [one.name, one.fryNeeded])).toEqual([
      ['double', 5],
      ['carrier', 11],
      ['its sister', null],
      ['clear', null],
    ]);
    expect(ranked[0]?.showing).toBe(0.5);
  });
});
