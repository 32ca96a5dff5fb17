import { describe, expect, it } from 'vitest';
import { RandomBits, seededChance } from './random-bits.js';

describe('RandomBits', () => {
  // State 1, 2, 3, 4; the words follow by hand from the published recurrence: 2 x 5 = 10, rotated by 7 is 1280, x 9 = 11520;
  // the second word of the next state is 2 ^ (3 ^ 1) = 0; and so on.
  it('gives the words that follow from the published recurrence', () => {
    const bits = RandomBits.fromState([1, 2, 3, 4]);
    const words = Array.from({ length: 4 }, () => bits.next());
    expect(words).toEqual([11520, 0, 5927040, 70819200]);
  });

  // A second state, printed beside another implementer's test of the authors' C code (read there).
  it('gives the words of a random state', () => {
    const state = [0x964d4a0c, 0xd40ab895, 0xad7fdecb, 0x3006f0f0] as const;
    const bits = RandomBits.fromState(state);
    const words = Array.from({ length: 4 }, () => bits.next());
    expect(words).toEqual([0xf1391922, 0x6fe53806, 0xa5be2840, 0xf510ee70]);
  });

  it('repeats itself for one seed and differs between seeds', () => {
    const words = (seed: number): number[] => {
      const bits = new RandomBits(seed);
      return Array.from({ length: 8 }, () => bits.next());
    };
    expect(words(-3)).toEqual(words(-3));
    expect(words(1)).not.toEqual(words(2));
  });

  it('gives uniform numbers that are its words, as parts of 1', () => {
    const [bits, chance] = [new RandomBits(5), seededChance(5)];
    const words = new RandomBits(5);
    for (let k = 0; k < 8; k++) {
      const word = words.next();
      expect([bits.uniform(), chance()]).toEqual([word / 2 ** 32, word / 2 ** 32]);
    }
  });

  it('tosses fair coins', () => {
    const bits = new RandomBits(20);
    let heads = 0;
    for (let toss = 0; toss < 100_000; toss++) heads += bits.coin();
    // Five standard deviations (158 each) either way.
    expect(Math.abs(heads - 50_000)).toBeLessThan(791);
  });
});
