import { describe, expect, it } from 'vitest';
import { choiceOf, otherPairOf } from './choice-of-address.js';

const search = (text: string) => new URLSearchParams(text);

describe('the address of a pair', () => {
  it('has no choice of its own while nothing but another pair is named', () => {
    expect(choiceOf(search(''))).toBeNull();
    expect(choiceOf(search('with=a,b'))).toBeNull();
    expect(choiceOf(search('line=x&with=a,b'))).toMatchObject({ lineIds: ['x'] });
  });

  it('names the other pair, or none', () => {
    expect(otherPairOf(search('with=a,b'))).toEqual({ sireId: 'a', damId: 'b' });
    expect(otherPairOf(search('with=a'))).toBeNull();
    expect(otherPairOf(search(''))).toBeNull();
  });
});
