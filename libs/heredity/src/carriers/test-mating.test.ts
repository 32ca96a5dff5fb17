import { describe, expect, it } from 'vitest';
import { findLocus } from '../catalogue/catalogue.js';
import type { GenotypeSet } from '../genotype.js';
import { hiddenYoung, type HiddenShare } from './hidden-young.js';
import { rankTestMatings } from './rank-test-matings.js';
import { testMatingWorth } from './test-mating.js';

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

describe('a tested locus that another may hide', () => {
  const melano = findLocus('m');
  const maybeMelano = [
    { genotype: 'M/M', probability: '1/2' },
    { genotype: 'M/m', probability: '1/2' },
  ];
  const rank = (
    atHiders: GenotypeSet | undefined,
    ofPartner: GenotypeSet | undefined,
    fry = 20,
    genotype = 'm/m',
  ) =>
    rankTestMatings({
      locus: melano,
      fish: maybeMelano,
      allele: 'm',
      fry,
      ...(atHiders && { atHiders }),
      partners: [{ name: 'partner', genotype, ...(ofPartner && { atHiders: ofPartner }) }],
    })[0];

  it('shows nothing where all young are albino', () => {
    expect(rank({ al: 'al/al' }, { al: 'al/al' })).toMatchObject({
      bits: 0,
      showing: 0,
      fryNeeded: null,
      notKnown: null,
      assumed: [],
    });
  });
  it('shows 1/4 in place of 1/2 where half are albino: 11 fry, not 5; worked by hand', () => {
    const half = rank({ al: 'Al/al' }, { al: 'al/al' }, 1);
    // One young: seen one time in two, and then it is worth H(1/4) - 1/2 bits.
    const h = -(0.25 * Math.log2(0.25) + 0.75 * Math.log2(0.75));
    expect(half?.bits).toBeCloseTo((h - 0.5) / 2, 12);
    expect(half?.showing).toBeCloseTo(1 / 4, 12);
    // 1 - (3/4)^10 = 0.944, 1 - (3/4)^11 = 0.958.
    expect(half?.fryNeeded).toBe(11);
    expect(rank({ al: 'Al/Al' }, { al: 'al/al' })?.fryNeeded).toBe(5);
  });
  it('averages over what the two may be where that is uncertain', () => {
    const uncertain = [
      { genotype: 'Al/al', probability: '1/2' },
      { genotype: 'Al/Al', probability: '1/2' },
    ];
    const one = rank({ al: uncertain }, { al: 'al/al' });
    expect(one?.showing).toBeCloseTo((1 / 4 + 1 / 2) / 2, 12);
    const reached = (n: number) => 1 - ((3 / 4) ** n + (1 / 2) ** n) / 2;
    const least = Array.from({ length: 40 }, (_, n) => n).find((n) => reached(n) >= 0.95);
    expect(one?.fryNeeded).toBe(least);
  });
  it('is not known where one of the two is on record and may hide, and ranks last', () => {
    const one = rank({ al: 'Al/al' }, undefined);
    expect(one).toMatchObject({ bits: null, showing: null, fryNeeded: null });
    expect(one?.notKnown).toMatch(/Record the partner's genotype at albino\.$/);
    expect(rank(undefined, { al: 'al/al' })?.notKnown).toMatch(/the fish's genotype at albino/);
    // Al/Al hides nothing, whatever the other is; and a clear partner shows nothing, hidden or not.
    expect(rank({ al: 'Al/Al' }, undefined)?.fryNeeded).toBe(5);
    expect(rank({ al: 'al/al' }, undefined, 20, 'M/M')).toMatchObject({ bits: 0, notKnown: null });
    const order = rankTestMatings({
      locus: melano,
      fish: maybeMelano,
      allele: 'm',
      fry: 20,
      atHiders: { al: 'Al/al' },
      partners: [
        { name: 'not on record', genotype: 'm/m' },
        { name: 'clear', genotype: 'M/M', atHiders: { al: 'Al/Al' } },
        { name: 'melano', genotype: 'm/m', atHiders: { al: 'Al/Al' } },
      ],
    });
    expect(order.map((one) => one.name)).toEqual(['melano', 'clear', 'not on record']);
  });
  it('says what it takes for granted where nothing is on record of either', () => {
    const one = rank(undefined, undefined);
    expect(one?.fryNeeded).toBe(5);
    expect(one?.assumed).toEqual([expect.stringMatching(/not hidden by albino/)]);
  });
});

describe('hiddenYoung', () => {
  const total = (list: readonly HiddenShare[] | null) =>
    list?.reduce((sum, one) => sum + one.weight * one.hidden, 0);
  it('multiplies over loci that hide: 1 - 3/4 x 3/4 for blond of two carriers of both', () => {
    const both = { c: 'C/c', al: 'Al/al' };
    expect(total(hiddenYoung(findLocus('b'), both, both).shares)).toBeCloseTo(7 / 16, 12);
  });
  it('counts among the living: where cambodian dies, none hide; where all die, none are seen', () => {
    const dying = {
      ...findLocus('c'),
      viability: [{ genotype: 'c/c', survival: '0', why: 'for this test' }],
    };
    const shares = (c: string) =>
      total(hiddenYoung(findLocus('b'), { c, al: 'Al/Al' }, { c, al: 'Al/Al' }, [dying]).shares);
    expect(shares('C/c')).toBe(0);
    expect(shares('c/c')).toBe(1);
  });
  it('asks for the whole genotype where it is known in part', () => {
    const open = hiddenYoung(findLocus('m'), { al: 'Al/-' }, { al: 'al/al' });
    expect(open.shares).toBeNull();
    expect(open.why).toMatch(/whole genotype of both at albino/);
  });
});
