import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { Equations } from '../mixed/equations.js';
import { animalModel } from './animal-model.js';
import { breedingValues, solveAtRatios } from './breeding-values.js';
import { errorsTogether } from './errors-together.js';
import { meanBreedingValue } from './reasons.js';

const pedigree = buildPedigree([
  { id: 'sire' }, { id: 'dam' }, { id: 'other' },
  { id: 'a', sire: 'sire', dam: 'dam' }, { id: 'b', sire: 'sire', dam: 'dam' }, { id: 'c', sire: 'sire', dam: 'other' },
]); // prettier-ignore
const scored = ['sire', 'a', 'b', 'c'];
const animal = animalModel({
  pedigree,
  fish: Int32Array.from(scored, (id) => pedigree.indexOf(id)),
  traits: [{ name: 't', values: Float64Array.from([4, 7, 5, 2]) }],
});
const solved = solveAtRatios(animal, new Equations(animal.model), [0.8]);

describe('errors of breeding values together', () => {
  const fish = ['a', 'b', 'other'].map((id) => pedigree.indexOf(id));
  const errors = errorsTogether(solved, fish);
  const at = (row: number, column: number): number => errors[row * 3 + column]!;

  it('hold the squares of the standard errors on the diagonal', () => {
    const [{ standardError }] = breedingValues(solved) as unknown as [
      { standardError: Float64Array },
    ];
    fish.forEach((index, k) => expect(at(k, k)).toBeCloseTo(standardError[index]! ** 2, 10));
  });

  it('give the error of a mean that is worked out otherwise', () => {
    const [a, b] = fish as [number, number];
    const { standardError } = meanBreedingValue(solved, [a, b]);
    expect((at(0, 0) + at(1, 1) + 2 * at(0, 1)) / 4).toBeCloseTo(standardError ** 2, 10);
    expect(at(0, 1)).toBe(at(1, 0));
    expect(at(0, 1)).not.toBe(0);
  });
});
