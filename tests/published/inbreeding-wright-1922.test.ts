/**
 * The bull Roan Gauntlet.
 *
 * Source: Wright S (1922) Am Nat 56:330-338; worked as Examples 1 and 2 of chapter 7 in Lynch M & Walsh B (1998) Genetics and
 * Analysis of Quantitative Traits, Sinauer. Basis: read in the source (answers, path counts); the names of Duchess of
 * Gloster 9th, Mistletoe and The Czar are from memory, fixed by the path counts read. F is printed with three decimals.
 */
import { coancestry, inbreedingCoefficients, tabularRelationship } from '@linewright/kinship';
import { describe, expect, it } from 'vitest';
import { explicitPedigree, lastPlace } from './explicit-pedigree.js';

const pedigree = explicitPedigree([
  ['Grand Duke of Gloster', 'Champion of England', 'Duchess of Gloster 9th'],
  ['Mimulus', 'Champion of England', 'Mistletoe'],
  ['Royal Duke of Gloster', 'Grand Duke of Gloster', 'Mimulus'],
  ['Duchess of Gloster 9th', 'Lord Raglan', null],
  ['Mistletoe', 'Lord Raglan', null],
  ['The Czar', 'Lord Raglan', null],
  ['Carmine', 'The Czar', 'Cressida'],
  ['Princess Royal', 'Champion of England', 'Carmine'],
  ['Roan Gauntlet', 'Royal Duke of Gloster', 'Princess Royal'],
]);
const theta = (a: string, b: string) =>
  coancestry(pedigree, pedigree.indexOf(a), pedigree.indexOf(b));

describe('Roan Gauntlet', () => {
  it('has F = 0.141 as printed, 9/64 exactly', () => {
    const f = inbreedingCoefficients(pedigree)[pedigree.indexOf('Roan Gauntlet')]!;
    expect(Math.abs(f - 0.141)).toBeLessThanOrEqual(lastPlace(3));
    expect(f).toBe(9 / 64);
    expect(f).toBe(2 * (1 / 2) ** 4 + 2 * (1 / 2) ** 7);
  });

  it('has the printed coancestries among its forebears', () => {
    expect(theta('Mimulus', 'Carmine')).toBe(1 / 32);
    expect(theta('Grand Duke of Gloster', 'Champion of England')).toBe(1 / 4);
  });

  it('has the printed fraternity of its parents', () => {
    const [a, b, c, d] = [
      'Grand Duke of Gloster',
      'Mimulus',
      'Champion of England',
      'Carmine',
    ] as const;
    expect(theta(a, c) * theta(b, d) + theta(a, d) * theta(b, c)).toBe(1 / 64);
  });

  it('agrees with the whole table', () => {
    const a = tabularRelationship(pedigree);
    for (let i = 0; i < pedigree.size; i++) {
      for (let j = 0; j < pedigree.size; j++) {
        expect(coancestry(pedigree, i, j)).toBe(a[i * pedigree.size + j]! / 2);
      }
    }
  });
});
