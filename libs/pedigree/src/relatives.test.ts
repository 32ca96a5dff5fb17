import { describe, expect, it } from 'vitest';
import { buildPedigree, pedigreeFromArrays } from './build-pedigree.js';
import {
  completeGenerationEquivalents,
  completenessByGeneration,
  generationDepth,
} from './generations.js';
import { offspringLists } from './offspring.js';
import { ancestors, degreesOfRelationship, descendants, relativesOfDegree } from './relatives.js';
import { subset, withAncestors } from './subset.js';

// Two founders, their sons and daughters, a half sib, cousins, and a young of uncle and niece.
const pedigree = buildPedigree([
  { id: 'grandsire' },
  { id: 'granddam' },
  { id: 'other dam' },
  { id: 'son', sire: 'grandsire', dam: 'granddam' },
  { id: 'daughter', sire: 'grandsire', dam: 'granddam' },
  { id: 'half sib', sire: 'grandsire', dam: 'other dam' },
  { id: 'mate' },
  { id: 'niece', sire: 'mate', dam: 'daughter' },
  { id: 'cousin', sire: 'son', dam: 'other dam' },
  { id: 'loop', sire: 'son', dam: 'niece' },
]);
const at = (id: string) => pedigree.indexOf(id);
const names = (indices: ArrayLike<number>) => Array.from(indices, (index) => pedigree.ids[index]);

describe('ancestors and descendants', () => {
  it('come in ascending order, each once', () => {
    expect(names(ancestors(pedigree, at('loop')))).toEqual([
      'grandsire',
      'granddam',
      'son',
      'daughter',
      'mate',
      'niece',
    ]);
    expect(names(ancestors(pedigree, at('loop'), 1))).toEqual(['son', 'niece']);
    expect(names(descendants(pedigree, at('daughter')))).toEqual(['niece', 'loop']);
    expect(names(descendants(pedigree, at('grandsire'), 1))).toEqual([
      'son',
      'daughter',
      'half sib',
    ]);
    expect(names(descendants(pedigree, at('grandsire'), 2))).toContain('loop');
    expect(descendants(pedigree, at('loop'))).toHaveLength(0);
  });

  it('refuse what is no index and no count', () => {
    expect(() => ancestors(pedigree, 99)).toThrow(
      expect.objectContaining({ code: 'PEDIGREE_BAD_INDEX' }),
    );
    expect(() => descendants(pedigree, 0, -1)).toThrow(
      expect.objectContaining({ code: 'PEDIGREE_BAD_ARGUMENT' }),
    );
  });
});

describe('degrees of relationship', () => {
  it('follow the nearest line, full sibs counting one less', () => {
    expect(names(relativesOfDegree(pedigree, at('son'), 1))).toEqual([
      'grandsire',
      'granddam',
      'daughter',
      'cousin',
      'loop',
    ]);
    expect(names(relativesOfDegree(pedigree, at('son'), 2))).toEqual(['half sib', 'niece']);
    expect(degreesOfRelationship(pedigree, at('niece'))[at('cousin')]).toBe(3);
    expect(degreesOfRelationship(pedigree, at('niece'))[at('mate')]).toBe(1);
    expect(degreesOfRelationship(pedigree, at('mate'))[at('son')]).toBe(-1);
    expect(degreesOfRelationship(pedigree, at('son'), 1)[at('niece')]).toBe(-1);
  });
});

describe('generations', () => {
  it('count the longest path, complete equivalents and completeness', () => {
    expect(generationDepth(pedigree)[at('loop')]).toBe(3);
    const equivalents = completeGenerationEquivalents(pedigree);
    expect(equivalents[at('niece')]).toBe(1.5);
    expect(equivalents[at('loop')]).toBe((1 + 1 + 1 + 1.5) / 2);
    expect([...completenessByGeneration(pedigree, at('loop'), 5)]).toEqual([1, 1, 0.25, 0, 0]);
    expect(completenessByGeneration(pedigree, at('loop'), 9).reduce((a, b) => a + b)).toBe(
      equivalents[at('loop')],
    );
  });

  it('reach 200,000 generations', () => {
    const size = 200_001;
    const deep = pedigreeFromArrays(
      Int32Array.from({ length: size }, (_, i) => i - 1),
      new Int32Array(size).fill(-1),
    );
    expect(generationDepth(deep)[size - 1]).toBe(200_000);
    expect(ancestors(deep, size - 1)).toHaveLength(200_000);
    expect(descendants(deep, 0)).toHaveLength(200_000);
    expect(relativesOfDegree(deep, size - 1, 200_000)).toEqual(Int32Array.of(0));
    expect(completenessByGeneration(deep, size - 1, 3)).toEqual(Float64Array.of(0.5, 0.25, 0.125));
  });
});

describe('subsets', () => {
  it('make parents left out unknown, or bring the ancestors along', () => {
    const few = subset(pedigree, [at('loop'), at('son'), at('loop')]);
    expect(few.ids).toEqual(['son', 'loop']);
    expect([...few.sire, ...few.dam]).toEqual([-1, 0, -1, -1]);
    const whole = subset(pedigree, withAncestors(pedigree, [at('niece')]));
    expect(whole.ids).toEqual(['grandsire', 'granddam', 'daughter', 'mate', 'niece']);
  });
});

describe('offspring lists', () => {
  it('hold one fish with 10,000 young', () => {
    const size = 10_002;
    const sire = new Int32Array(size).fill(0);
    const dam = new Int32Array(size).fill(1);
    sire.fill(-1, 0, 2);
    dam.fill(-1, 0, 2);
    const { start, young } = offspringLists(pedigreeFromArrays(sire, dam));
    expect(start[1]! - start[0]!).toBe(10_000);
    expect(start[2]! - start[1]!).toBe(10_000);
    expect(young[start[1]!]).toBe(2);
  });
});
