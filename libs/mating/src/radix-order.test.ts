import { seededChance } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { radixOrder } from './radix-order.js';

describe('places in order of keys', () => {
  it('are those of a sort by comparing, with ties, signs, noughts and what is no number', () => {
    const random = seededChance(5);
    for (const length of [0, 1, 2, 17, 3000]) {
      const drawn = (of: () => number) => Float64Array.from({ length }, of);
      const coarse = drawn(() => Math.floor(random() * 4) / 8);
      const odd = [NaN, -NaN, 0, -0, Infinity, -Infinity, 1e-310, -1e-310, 1e308];
      const fine = drawn(() =>
        random() < 0.3 ? odd[Math.floor(random() * odd.length)]! : random() * 2 - 1,
      );
      const compare = (a: number, b: number): number => {
        const [x, y] = [fine[a]!, fine[b]!];
        if (Number.isNaN(x) || Number.isNaN(y)) {
          if (Number.isNaN(x) && !Number.isNaN(y)) return 1;
          if (Number.isNaN(y) && !Number.isNaN(x)) return -1;
        } else if (x !== y) return x < y ? -1 : 1;
        return coarse[a]! - coarse[b]! || a - b;
      };
      expect([...radixOrder([coarse, fine], length)]).toEqual(
        Array.from({ length }, (_, place) => place).sort(compare),
      );
    }
  });
});
