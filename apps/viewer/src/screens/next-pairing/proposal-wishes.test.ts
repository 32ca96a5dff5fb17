import { describe, expect, it } from 'vitest';
import {
  proposalInput,
  wishAbout,
  wishOf,
  wishWords,
  withWish,
  type Wish,
} from './proposal-wishes.js';

const [a, b] = [
  { id: '1', tag: 'A' },
  { id: '2', tag: 'B' },
];

describe('wishes for a proposal', () => {
  it('are said once of the same fish, and taken back when said again', () => {
    const must: Wish = { must: true, fish: [a, b] };
    const not: Wish = { must: false, fish: [a, b] };
    expect(withWish([must], not)).toEqual([not]);
    expect(withWish([not], not)).toEqual([]);
    const alone: Wish = { must: false, fish: [a] };
    expect(withWish([must], alone)).toEqual([must, alone]);
    expect(wishAbout([must, alone], [a])).toBe(alone);
  });

  it('are asked for by the ids of the fish', () => {
    const wishes: Wish[] = [
      { must: true, fish: [a] },
      { must: false, fish: [b] },
      { must: true, fish: [a, b] },
    ];
    expect(proposalInput('line', wishes, 0.2)).toEqual({
      lineId: 'line',
      kinshipLimit: 0.2,
      mustFishIds: ['1'],
      mustNotFishIds: ['2'],
      mustPairs: [{ sireId: '1', damId: '2' }],
      mustNotPairs: [],
    });
    expect(proposalInput('line', [], null)).not.toHaveProperty('kinshipLimit');
  });

  it('are made of one fish or of two, once their tags are known', () => {
    const none = { id: null, named: null };
    const of = (named: typeof a) => ({ id: named.id, named });
    expect(wishOf(none, none)).toBeNull();
    expect(wishOf(none, of(b))).toEqual({ must: true, fish: [b] });
    expect(wishOf(of(a), of(b))).toEqual({ must: true, fish: [a, b] });
    expect(wishOf(of(a), { id: '2', named: null })).toBeNull();
  });

  it('are read in plain words', () => {
    expect(wishWords({ must: true, fish: [a, b] })).toBe('A by B must be made');
    expect(wishWords({ must: false, fish: [a] })).toBe('A is in no pair');
  });
});
