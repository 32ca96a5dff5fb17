import { describe, expect, it } from 'vitest';
import { choiceFrom, MOST_CHOSEN, rangeOf, withFish, withoutFish } from './choice.js';

const fish = (from: number, count: number) =>
  Array.from({ length: count }, (_, index) => ({
    id: `id-${from + index}`,
    tag: `T-${from + index}`,
  }));

describe('fish chosen in a list', () => {
  it('are chosen once each, in order, and keep what is needed of them', () => {
    const [a, b] = fish(1, 2);
    const { choice } = withFish([a!], [{ ...b!, sex: 'MALE' } as never, a!, b!]);
    expect(choice).toEqual([a, b]);
  });

  it('stop at the most, telling how many are beyond it', () => {
    const { choice, beyond } = withFish(fish(1, MOST_CHOSEN - 1), fish(150, 100));
    expect(choice).toHaveLength(MOST_CHOSEN);
    expect(choice.at(-1)?.tag).toBe('T-200');
    // 150 to 199 were there already; 200 was taken; 201 to 249 are left.
    expect(beyond).toBe(49);
    expect(withFish(choice, choice)).toEqual({ choice, beyond: 0 });
  });

  it('leave the choice by their ids', () => {
    expect(withoutFish(fish(1, 3), ['id-2', 'id-9']).map(({ tag }) => tag)).toEqual(['T-1', 'T-3']);
  });

  it('a range goes either way, and is one row when the last one is not in the list', () => {
    const rows = fish(1, 5);
    const tags = (last: string | null, row: number) =>
      rangeOf(rows, last, rows[row]!).map(({ tag }) => tag);
    expect(tags('id-2', 3)).toEqual(['T-2', 'T-3', 'T-4']);
    expect(tags('id-4', 1)).toEqual(['T-2', 'T-3', 'T-4']);
    expect(tags('id-9', 1)).toEqual(['T-2']);
    expect(tags(null, 0)).toEqual(['T-1']);
  });

  it('come back from what was kept, and nothing from what is spoilt', () => {
    const choice = fish(1, 2);
    expect(choiceFrom(JSON.stringify(choice))).toEqual(choice);
    for (const spoilt of [null, '', '{', '{"id":1}', 'null'])
      expect(choiceFrom(spoilt)).toEqual([]);
    expect(choiceFrom(JSON.stringify([...choice, { id: 3, tag: 'T-3' }, null]))).toEqual(choice);
  });
});
