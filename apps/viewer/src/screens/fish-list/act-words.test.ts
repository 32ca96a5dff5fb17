import { describe, expect, it } from 'vitest';
import { changingIn, namedFish, saveWords } from './act-words.js';

const fish = (changes: number) => ({ changes: Array.from({ length: changes }) }) as never;

describe('what is said of an act for several fish', () => {
  it('counts the fish that change, and none while one stands in the way', () => {
    const looked = { fish: [fish(2), fish(0), fish(1)], inTheWay: [] };
    expect(changingIn(looked)).toBe(2);
    expect(changingIn({ ...looked, inTheWay: [{}] as never })).toBe(0);
  });

  it('says on the button for how many it is', () => {
    expect([saveWords('decision', 2), saveWords('withdrawal', 1), saveWords('line', 0)]).toEqual([
      ...['Save for 2 fish', 'Withdraw 1 fish', 'Save'],
    ]);
  });

  it('names a dozen fish and counts the rest', () => {
    const choice = Array.from({ length: 14 }, (_, at) => ({ id: `${at}`, tag: `T-${at}` }));
    expect(namedFish(choice.slice(0, 2))).toBe('T-0, T-1.');
    expect(namedFish(choice)).toMatch(/T-11 and 2 more\.$/);
  });
});
