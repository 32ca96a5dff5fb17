import { describe, expect, it } from 'vitest';
import { howManyToKeep } from './how-many.js';

const none = { males: 0, females: 0 };

describe('how many to keep of a brood', () => {
  it('is an equal share, rounded up, half of each sex', () => {
    expect(howManyToKeep({ keep: 8, broods: 2, keptElsewhere: none })).toEqual({
      males: 2,
      females: 2,
    });
    expect(howManyToKeep({ keep: 10, broods: 3, keptElsewhere: none })).toEqual({
      males: 2,
      females: 2,
    });
  });

  it('gives the odd one to the sex of which fewer were kept elsewhere, else to the females', () => {
    const odd = (males: number, females: number) =>
      howManyToKeep({ keep: 9, broods: 3, keptElsewhere: { males, females } });
    expect(odd(0, 0)).toEqual({ males: 1, females: 2 });
    expect(odd(1, 2)).toEqual({ males: 2, females: 1 });
    expect(odd(2, 1)).toEqual({ males: 1, females: 2 });
  });

  it('is one at least, and refuses what is no number of broods', () => {
    expect(howManyToKeep({ keep: 2, broods: 5, keptElsewhere: none })).toEqual({
      males: 0,
      females: 1,
    });
    for (const change of [{ keep: 0 }, { broods: 0 }, { broods: 1.5 }])
      expect(() => howManyToKeep({ keep: 8, broods: 2, keptElsewhere: none, ...change })).toThrow(
        expect.objectContaining({ code: 'MATING_BAD_VALUE' }) as Error,
      );
  });
});
