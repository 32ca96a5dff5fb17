import { buildPedigree, type Pedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { closeRelationship } from './close-relationship.js';

const rows: [string, string?, string?][] = [
  ['A'], ['B'], ['C'], ['D'], ['E'], ['F'],
  ['S1', 'A', 'B'], ['S2', 'A', 'B'], ['H', 'A', 'C'],
  ['N1', 'S1', 'D'], ['N2', 'F', 'S2'], ['M', 'H', 'E'],
]; // prettier-ignore
const pedigree: Pedigree = buildPedigree(
  rows.map(([id, sire, dam]) => ({ id, sire: sire ?? null, dam: dam ?? null })),
);

describe('closeRelationship', () => {
  it.each([
    ['A', 'S1', 'sire-and-daughter'],
    ['S1', 'B', 'dam-and-son'],
    ['S1', 'S2', 'full-siblings'],
    ['S1', 'H', 'half-siblings'],
    ['A', 'N1', 'grandsire-and-granddaughter'],
    ['N1', 'B', 'granddam-and-grandson'],
    ['S2', 'N1', 'uncle-and-niece'],
    ['N1', 'S2', 'aunt-and-nephew'],
    ['H', 'N1', 'half-uncle-and-niece'],
    ['N1', 'H', 'half-aunt-and-nephew'],
    ['N1', 'N2', 'first-cousins'],
    ['N1', 'M', null],
    ['A', 'B', null],
  ])('%s by %s: %s', (sire, dam, expected) => {
    expect(closeRelationship(pedigree, pedigree.indexOf(sire), pedigree.indexOf(dam))).toBe(
      expected,
    );
  });

  it('knows first cousins', () => {
    const cousins = buildPedigree([
      { id: 'A' }, { id: 'B' }, { id: 'U' }, { id: 'V' },
      { id: 'P', sire: 'A', dam: 'B' }, { id: 'Q', sire: 'A', dam: 'B' },
      { id: 'X', sire: 'P', dam: 'U' }, { id: 'Y', sire: 'V', dam: 'Q' },
    ]); // prettier-ignore
    expect(closeRelationship(cousins, cousins.indexOf('X'), cousins.indexOf('Y'))).toBe(
      'first-cousins',
    );
  });
});
