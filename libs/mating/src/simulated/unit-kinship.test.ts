import { tabularRelationship } from '@linewright/kinship';
import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { Draws } from './draws.js';
import { UnitKinship } from './unit-kinship.js';

/** Grows a line at random; each spawn has three young, of which any may be a parent later, also to its own sibs, parents and young. */
function grown(seed: number) {
  const draws = new Draws(seed);
  const founders = 4;
  const sire: number[] = Array.from({ length: founders }, () => -1);
  const dam = [...sire];
  const kinship = new UnitKinship(
    founders,
    Float64Array.from({ length: founders ** 2 }, (_, k) => (k % (founders + 1) === 0 ? 0.5 : 0)),
  );
  const unit = Array.from({ length: founders }, (_, k) => k);
  const single = new Set(unit);
  for (let spawn = 0; spawn < 24; spawn++) {
    const a = draws.below(unit.length);
    const b = (a + 1 + draws.below(unit.length - 1)) % unit.length;
    for (const parent of [a, b])
      if (!single.has(parent)) {
        unit[parent] = kinship.single(unit[parent]!);
        single.add(parent);
      }
    const born = kinship.spawn(unit[a]!, unit[b]!);
    for (let k = 0; k < 3; k++) {
      sire.push(a);
      dam.push(b);
      unit.push(born);
    }
  }
  return {
    kinship,
    unit,
    pedigree: pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam)),
  };
}

describe('coancestries kept by spawn', () => {
  it.each([1, 2, 3, 4, 5])('equal those of the table of all fish, seed %i', (seed) => {
    const { kinship, unit, pedigree } = grown(seed);
    const table = tabularRelationship(pedigree);
    const size = pedigree.size;
    for (let a = 0; a < size; a++) {
      expect(kinship.inbreedingOf(unit[a]!)).toBeCloseTo(table[a * size + a]! - 1, 12);
      for (let b = 0; b < a; b++)
        expect(kinship.between(unit[a]!, unit[b]!)).toBeCloseTo(table[a * size + b]! / 2, 12);
    }
  });

  it('begins anew with the founders, related and inbred as they are', () => {
    const kinship = new UnitKinship(2, Float64Array.from([0.75, 0.3, 0.3, 0.5]));
    const first = kinship.inbreedingOf(kinship.spawn(0, 1));
    kinship.reset();
    expect(kinship.inbreedingOf(kinship.spawn(0, 1))).toBe(first);
    expect(first).toBe(0.3);
    expect(kinship.inbreedingOf(0)).toBe(0.5);
  });
});
