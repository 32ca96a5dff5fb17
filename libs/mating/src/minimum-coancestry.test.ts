import { buildPedigree } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { allocatePairs } from './minimum-coancestry.js';

// Two families: males M1, M2 and females F1, F2 of family one; M3, F3 of family two.
const pedigree = buildPedigree([
  { id: 'A' }, { id: 'B' }, { id: 'C' }, { id: 'D' },
  { id: 'M1', sire: 'A', dam: 'B' }, { id: 'M2', sire: 'A', dam: 'B' }, { id: 'F1', sire: 'A', dam: 'B' },
  { id: 'F2', sire: 'A', dam: 'B' }, { id: 'M3', sire: 'C', dam: 'D' }, { id: 'F3', sire: 'C', dam: 'D' },
]); // prettier-ignore

describe('allocatePairs', () => {
  it('crosses the families as far as it can', () => {
    const result = allocatePairs({ pedigree, males: ['M3', 'M1'], females: ['F3', 'F1'] });
    expect(result.pairs).toEqual([
      { sireId: 'M1', damId: 'F3', inbreeding: 0 },
      { sireId: 'M3', damId: 'F1', inbreeding: 0 },
    ]);
    expect(result).toMatchObject({ totalInbreeding: 0, meanInbreeding: 0, missing: 0 });
  });

  it('names who is left over', () => {
    const result = allocatePairs({
      pedigree,
      males: ['M1', 'M2', 'M3'],
      females: ['F1', 'F2', 'F3'],
      pairs: 2,
    });
    expect(result.totalInbreeding).toBe(0);
    expect(result.leftOver.males).toHaveLength(1);
    expect(result.leftOver.females).toHaveLength(1);
  });

  it('lets a male have several mates but a female one', () => {
    const input = { pedigree, males: ['M3'], females: ['F1', 'F2'] };
    expect(allocatePairs(input).pairs).toHaveLength(1);
    const two = allocatePairs({ ...input, matesPerMale: 2 });
    expect(two.pairs.map(({ damId }) => damId)).toEqual(['F1', 'F2']);
  });

  it('keeps away from forbidden pairs and says what is missing', () => {
    const forbidden = [['M3', 'F1']] as const;
    expect(allocatePairs({ pedigree, males: ['M3'], females: ['F1'], forbidden })).toMatchObject({
      pairs: [],
      missing: 1,
    });
    const other = allocatePairs({ pedigree, males: ['M3'], females: ['F1', 'F2'], forbidden });
    expect(other.pairs).toMatchObject([{ damId: 'F2' }]);
  });

  it.each([
    ['MATING_UNKNOWN_FISH', { males: ['Z'] }],
    ['MATING_DUPLICATE_FISH', { males: ['M1', 'M1'] }],
    ['MATING_BAD_SETTING', { matesPerMale: 0 }],
    ['MATING_BAD_SETTING', { pairs: -1 }],
  ])('refuses with %s', (code, more) => {
    expect(() => allocatePairs({ pedigree, males: ['M1'], females: ['F1'], ...more })).toThrow(
      expect.objectContaining({ code }) as Error,
    );
  });
});
