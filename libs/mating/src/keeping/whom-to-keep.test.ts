import { findLocus } from '@linewright/heredity';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import type { PairingCandidate } from '../candidate.js';
import { STARTING_PURPOSE, type LinePurpose } from '../purpose/line-purpose.js';
import { rankPairings } from '../rank-pairings.js';
import type { WorthBasis } from '../worth/judged-worth.js';
import { chanceOfCarrying } from './carried-alleles.js';
import { whomToKeep, type KeepingInput } from './whom-to-keep.js';

const pedigree = buildPedigree([
  ...['A', 'B', 'C', 'D'].map((id) => ({ id })),
  ...['m1', 'm2', 'm3', 'f1', 'f2'].map((id) => ({ id, sire: 'A', dam: 'B' })),
  ...['k1', 'k2'].map((id) => ({ id, sire: 'A', dam: 'C' })),
]);
const purpose: LinePurpose = {
  ...STARTING_PURPOSE,
  traits: [{ traitId: 't', better: 'higher', low: null, high: null, worth: 2 }],
  looks: [{ look: { show: { dt: 'double' } }, wanted: true, worth: 6, required: false }],
  inbreedingCost: 1,
};
const worth: WorthBasis = {
  purpose,
  traits: [
    {
      ...{ traitId: 't', level: 100, additive: 30, commonBrood: 0, residual: 70 },
      line: { mean: 100, deviation: 10 },
    },
  ],
  ...{ fry: 60, survival: 0.5, load: 0 },
};
const dt = (double: number, carrier: number) => ({
  dt: [
    { genotype: 'Dt/Dt', probability: 1 - double - carrier },
    { genotype: 'Dt/dt', probability: carrier },
    { genotype: 'dt/dt', probability: double },
  ],
});
const fish = (
  id: string,
  sex: PairingCandidate['sex'],
  value: number,
  standardError: number,
  carries = dt(0, 0.5),
): PairingCandidate => ({ id, sex, carries, values: { t: { value, standardError } } });

const young = [
  fish('m1', 'male', 0, 0.1),
  fish('m2', 'male', 6, 0.1, dt(0, 1)),
  fish('m3', 'male', 6.05, 0.1, dt(0, 1)),
  fish('f1', 'female', 3, 0.1),
  fish('f2', 'unknown', -3, 0.1),
];
const mates = [fish('k1', 'female', 2, 1), fish('k2', 'female', 0, 3, dt(1, 0))];
const input = (change: Partial<KeepingInput> = {}): KeepingInput => ({
  ...{ pedigree, worth, young, mates, alleles: [], toKeep: { males: 1, females: 1 } },
  ...change,
});

describe('whom to keep', () => {
  it('is worth the mean of its pairs with the line, as pairs are ranked', () => {
    const { young: told } = whomToKeep(input());
    for (const one of young.filter(({ sex }) => sex === 'male')) {
      const ranked = rankPairings({
        ...{ pedigree, worth, asOf: '2026-06-01' },
        candidates: [one, ...mates],
      });
      const points = ranked.rows(0, 2).map((row) => row.worth.worth);
      expect(told.find(({ id }) => id === one.id)!.worth).toBeCloseTo(
        (points[0]! + points[1]!) / 2,
        10,
      );
    }
  });

  it('stands in order of worth, its place among its own sex', () => {
    const { young: told } = whomToKeep(input());
    expect(told.map(({ id }) => id)).toEqual(['m3', 'm2', 'f1', 'm1', 'f2']);
    expect(told.map(({ place, of }) => `${place} of ${of}`)).toEqual([
      ...['1 of 3', '2 of 3', '1 of 1', '3 of 3', '1 of 1'],
    ]);
  });

  it('gives young that are worth the same one place', () => {
    const alike = ['m1', 'm2', 'm3'].map((id, k) => fish(id, 'male', k === 2 ? 9 : 4, 3));
    const { young: told } = whomToKeep(input({ young: alike }));
    expect(told.map(({ id, place }) => `${id} ${place}`)).toEqual(['m3 1', 'm1 2', 'm2 2']);
  });

  it('says of two on both sides of the cut that they cannot be told apart, and of no others', () => {
    const { young: told } = whomToKeep(input());
    const advice = Object.fromEntries(told.map((one) => [one.id, one.advice]));
    expect(advice).toEqual({
      ...{ m3: 'cannot-tell', m2: 'cannot-tell', m1: 'others-first', f1: 'keep', f2: 'keep' },
    });
    const two = whomToKeep(input({ toKeep: { males: 2, females: 1 } })).young;
    expect(two.filter(({ advice: said }) => said === 'keep').map(({ id }) => id)).toEqual([
      ...['m3', 'm2', 'f1', 'f2'],
    ]);
  });

  it('tells sibs apart sooner where their errors go together', () => {
    const wide = [fish('m1', 'male', 0, 2), fish('m2', 'male', 3, 2)].map((one) => ({
      ...one,
      carries: dt(0, 1),
    }));
    const alone = whomToKeep(input({ young: wide })).young;
    expect(alone.map(({ advice }) => advice)).toEqual(['cannot-tell', 'cannot-tell']);
    const errorCorrelation = { t: Float64Array.of(1, 0.9, 0.9, 1) };
    const together = whomToKeep(input({ young: wide, errorCorrelation })).young;
    expect(together.map(({ advice }) => advice)).toEqual(['keep', 'others-first']);
    expect(together[0]!.standardError).toBe(alone[0]!.standardError);
  });

  it('keeps the last carrier whatever its place, and counts the others', () => {
    const locus = findLocus('dt');
    const living = [...young, ...mates];
    const alleles = [
      {
        ...{ locusId: 'dt', alleleId: 'double' },
        carrying: new Map(living.map((one) => [one.id, chanceOfCarrying(one, locus, 'double')!])),
        sole: new Map(living.map(({ id }) => [id, id === 'm1' ? 0.6 : 0.05])),
      },
    ];
    const { young: told } = whomToKeep(input({ alleles }));
    const last = told.find(({ id }) => id === 'm1')!;
    expect(last.advice).toBe('last-carrier');
    expect(last.alleles).toEqual([
      {
        locusId: 'dt',
        alleleId: 'double',
        chance: 0.5,
        others: 1 + 1 + 0.5 + 0.5 + 0.5 + 1,
        last: 0.6,
      },
    ]);
    expect(told.filter(({ advice }) => advice === 'last-carrier')).toHaveLength(1);
  });

  it('has the error that is the young’s own: half its value’s, and what is not known of its genotype', () => {
    const { young: told } = whomToKeep(input());
    const of = (id: string) => told.find((one) => one.id === id)!.standardError;
    expect(of('m2')).toBeCloseTo(2 * 0.5 * 0.1, 12);
    // One mate is half likely to carry, the other shows it: 1/8 and 1/2 of the young of a carrier show it on average, none of the others.
    const share = (1 / 8 + 1 / 2) / 2;
    expect(of('m1')).toBeCloseTo(Math.hypot(0.1, 6 * share * 0.5), 12);
  });

  it('needs young and somebody to hold them against', () => {
    for (const change of [{ young: [] }, { mates: [] }])
      expect(() => whomToKeep(input(change))).toThrow(
        expect.objectContaining({ code: 'MATING_TOO_FEW_FISH' }) as Error,
      );
  });
});
