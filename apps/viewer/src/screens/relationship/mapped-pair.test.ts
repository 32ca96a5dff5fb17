import { describe, expect, it } from 'vitest';
import { pairPath, whyNoPair, wholeMatrix } from './mapped-pair.js';

const male = { id: 'm', tag: 'M-1', sex: 'MALE' } as const;
const female = { id: 'f', tag: 'F-1', sex: 'FEMALE' } as const;
const unsexed = { id: 'u', tag: 'U-1', sex: 'UNSEXED' } as const;

describe('wholeMatrix', () => {
  it('mirrors each pair', () => {
    expect([...wholeMatrix([0.5, 0.1, 0.6, 0.2, 0.3, 0.7], 3)]).toEqual([
      0.5, 0.1, 0.2, 0.1, 0.6, 0.3, 0.2, 0.3, 0.7,
    ]);
  });
});

describe('a pair of the map', () => {
  it('puts the sire first, whichever way it was chosen', () => {
    expect(pairPath(male, female)).toBe('/pair/m/f');
    expect(pairPath(female, male)).toBe('/pair/m/f');
  });
  it('says why two fish are no pair', () => {
    expect(whyNoPair(male, male)).toContain('one fish');
    expect(whyNoPair(male, { ...male, id: 'n' })).toContain('Both are males');
    expect(whyNoPair(female, unsexed)).toContain('U-1');
    expect(pairPath(female, unsexed)).toBeNull();
    expect(whyNoPair(male, female)).toBeNull();
  });
});
