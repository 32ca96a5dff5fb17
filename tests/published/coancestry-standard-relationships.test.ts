/**
 * F of the young of standard pairs of relatives, each as an explicit pedigree.
 *
 * Source: the standard table of coefficients of consanguinity in human genetics notes; also A Dictionary of Zoology,
 * "coefficient of inbreeding". Basis: read in the source.
 */
import { coancestry, inbreedingCoefficients } from '@linewright/kinship';
import { describe, expect, it } from 'vitest';
import { explicitPedigree, type PedigreeRow } from './explicit-pedigree.js';

// Two full sibs b and c, and the lines down from them.
const sibs: PedigreeRow[] = [
  ['b', 'a', 'u'],
  ['c', 'a', 'u'],
];
const cousins: PedigreeRow[] = [...sibs, ['d', 'b', 'v'], ['e', 'c', 'w']];
const secondCousins: PedigreeRow[] = [...cousins, ['g', 'e', 'z'], ['h', 'd', 'z2']];

const table: readonly [string, PedigreeRow[], string, string, number][] = [
  ['self', [], 'a', 'a', 1 / 2],
  ['parent and offspring', [['b', 'a', 'u']], 'a', 'b', 1 / 4],
  ['full sibs', sibs, 'b', 'c', 1 / 4],
  [
    'half sibs',
    [
      ['b', 'a', 'u'],
      ['c', 'a', 'v'],
    ],
    'b',
    'c',
    1 / 8,
  ],
  ['uncle and niece', [...sibs, ['d', 'c', 'v']], 'b', 'd', 1 / 8],
  ['first cousins', cousins, 'd', 'e', 1 / 16],
  [
    'double first cousins',
    [...sibs, ['b2', 'a2', 'u2'], ['c2', 'a2', 'u2'], ['d', 'b', 'b2'], ['e', 'c', 'c2']],
    'd',
    'e',
    1 / 8,
  ],
  [
    'half first cousins',
    [
      ['b', 'a', 'u'],
      ['c', 'a', 'u2'],
      ['d', 'b', 'v'],
      ['e', 'c', 'w'],
    ],
    'd',
    'e',
    1 / 32,
  ],
  ['first cousins once removed', [...cousins, ['g', 'e', 'z']], 'd', 'g', 1 / 32],
  ['second cousins', secondCousins, 'g', 'h', 1 / 64],
  ['second cousins once removed', [...secondCousins, ['i', 'h', 'z3']], 'g', 'i', 1 / 128],
  ['third cousins', [...secondCousins, ['i', 'h', 'z3'], ['j', 'g', 'z4']], 'j', 'i', 1 / 256],
];

describe('standard relationships', () => {
  it.each(table)('%s', (_, rows, sire, dam, expected) => {
    const pedigree = explicitPedigree([...rows, ['X', sire, dam]]);
    const x = pedigree.indexOf('X');
    expect(inbreedingCoefficients(pedigree)[x]).toBe(expected);
    expect(coancestry(pedigree, pedigree.indexOf(sire), pedigree.indexOf(dam))).toBe(expected);
  });
});
