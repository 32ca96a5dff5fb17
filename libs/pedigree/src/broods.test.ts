import { describe, expect, it } from 'vitest';
import { findBroodConflicts, pedigreeOfBroods } from './broods.js';
import { completeGenerationEquivalents, generationDepth } from './generations.js';
import { subset } from './subset.js';

const rows = (
  list: readonly (readonly [id: string, sire: number, dam: number, brood: number])[],
) => ({
  sire: Int32Array.from(list, ([, sire]) => sire),
  dam: Int32Array.from(list, ([, , dam]) => dam),
  brood: Int32Array.from(list, ([, , , brood]) => brood),
  ids: () => list.map(([id]) => id),
  hiddenId: (brood: number, role: string) => `${role} of ${brood}`,
});

const parentsIn = (built: ReturnType<typeof pedigreeOfBroods>, id: string): string[] => {
  const { pedigree } = built;
  const at = pedigree.indexOf(id);
  return [pedigree.sire[at]!, pedigree.dam[at]!].map((p) => (p < 0 ? '' : pedigree.ids[p]!));
};

describe('broods whose parents nobody knows', () => {
  const built = pedigreeOfBroods(
    rows([
      ['young', 1, 2, -1],
      ['a', -1, -1, 0],
      ['b', -1, -1, 0],
      ['alone', -1, -1, 1],
      ['x', 3, -1, 2],
      ['y', 3, -1, 2],
      ['loose', -1, -1, -1],
      ['known', 1, 2, 3],
      ['told by its sib', -1, 2, 3],
    ]),
  );

  it('share one hidden parent for each unknown one', () => {
    expect(parentsIn(built, 'a')).toEqual(['sire of 0', 'dam of 0']);
    expect(parentsIn(built, 'b')).toEqual(['sire of 0', 'dam of 0']);
    expect(parentsIn(built, 'x')).toEqual(['alone', 'dam of 2']);
    expect(parentsIn(built, 'y')).toEqual(['alone', 'dam of 2']);
    expect(built.hidden.map(({ brood, role }) => `${role} of ${brood}`)).toEqual([
      'sire of 0',
      'dam of 0',
      'dam of 2',
    ]);
    for (const { index } of built.hidden) expect(built.pedigree.hidden?.[index]).toBe(1);
    expect(built.pedigree.hidden?.reduce((sum, one) => sum + one, 0)).toBe(3);
  });

  it('leave a brood of one, a fish of none, and what a sib tells', () => {
    expect(parentsIn(built, 'alone')).toEqual(['', '']);
    expect(parentsIn(built, 'loose')).toEqual(['', '']);
    expect(parentsIn(built, 'told by its sib')).toEqual(['a', 'b']);
  });

  it('say which index each row got', () => {
    expect([...built.indexOfRow].map((index) => built.pedigree.ids[index])).toEqual([
      'young',
      'a',
      'b',
      'alone',
      'x',
      'y',
      'loose',
      'known',
      'told by its sib',
    ]);
  });

  it('do not count as known ancestry, in a part of the pedigree neither', () => {
    const { pedigree } = built;
    const own = pedigree.indexOf('a');
    expect(generationDepth(pedigree)[own]).toBe(0);
    expect(generationDepth(pedigree, { hiddenCount: true })[own]).toBe(1);
    expect(completeGenerationEquivalents(pedigree)[own]).toBe(0);
    expect(completeGenerationEquivalents(pedigree)[pedigree.indexOf('x')]).toBe(0.5);
    expect(completeGenerationEquivalents(pedigree, { hiddenCount: true })[own]).toBe(1);
    const part = subset(pedigree, [pedigree.sire[own]!, pedigree.dam[own]!, own]);
    expect(completeGenerationEquivalents(part)[part.indexOf('a')]).toBe(0);
    expect([...(part.hidden ?? [])]).toEqual([1, 1, 0]);
  });

  it('are refused when their rows name different parents and one names none', () => {
    const wrong = rows([
      ['p', -1, -1, -1],
      ['q', -1, -1, -1],
      ['a', 0, -1, 5],
      ['b', 1, -1, 5],
      ['c', -1, -1, 5],
    ]);
    expect(findBroodConflicts(wrong)).toEqual([{ brood: 5, role: 'sire', rows: [2, 3] }]);
    expect(() => pedigreeOfBroods(wrong)).toThrow(
      expect.objectContaining({ code: 'PEDIGREE_BAD_ARGUMENT' }),
    );
    const told = rows([
      ['p', -1, -1, -1],
      ['q', -1, -1, -1],
      ['a', 0, 1, 5],
      ['b', 1, 0, 5],
    ]);
    expect(findBroodConflicts(told)).toEqual([]);
  });
});
