import { meanKinship } from '@linewright/kinship';
import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { lineWithYoung } from './line-with-young.js';

const FISH = [
  ...['a', 'b', 'c', 'd'].map((id) => ({ id })),
  { id: 'e', sire: 'a', dam: 'b' },
  { id: 'f', sire: 'a', dam: 'b' },
  { id: 'g', sire: 'c', dam: 'f' },
  { id: 'h', sire: 'e', dam: 'd' },
];

const meanOf = (of: Float64Array): number => of.reduce((sum, each) => sum + each, 0) / of.length;

describe('a line with the young of a pair beside its fish', () => {
  it.each([
    ['relatives', 'e', 'f', 3],
    ['a sire and his daughter', 'a', 'f', 2],
    ['one of them not of the line', 'c', 'h', 1],
    ['none is kept', 'g', 'h', 0],
  ])('is as related as with the young written into the pedigree: %s', (_, sire, dam, keep) => {
    const line = ['e', 'f', 'g', 'h', 'a'];
    const young = Array.from({ length: keep }, (__, k) => ({ id: `young ${k}`, sire, dam }));
    const before = buildPedigree(FISH);
    const places = line.map((id) => before.indexOf(id));
    const told = lineWithYoung(before, places, [before.indexOf(sire), before.indexOf(dam)], keep);
    expect(told.now).toBeCloseTo(meanOf(meanKinship(before, places)), 12);
    const after = buildPedigree([...FISH, ...young]);
    const all = [...line, ...young.map(({ id }) => id)].map((id) => after.indexOf(id));
    expect(told.after).toBeCloseTo(meanOf(meanKinship(after, all)), 12);
  });

  it('is nothing new to itself where a young is as related to it as its fish are to each other', () => {
    const pedigree = buildPedigree(FISH);
    const [e, f] = ['e', 'f'].map((id) => pedigree.indexOf(id)) as [number, number];
    // Of one fish: its own 1/2, and the mean of 1/2 and 1/4.
    expect(lineWithYoung(pedigree, [e], [e, f], 1)).toMatchObject({ now: 0.5, ofYoung: 0.375 });
  });
});
