import { describe, expect, it } from 'vitest';
import { matesAmong } from './mates-among.js';

const fish = (count: number, more: { spawnId?: string; disposition?: 'keeper' | 'hold' }) =>
  Array.from({ length: count }, (_, k) => ({
    id: `${more.disposition ?? 'keeper'}-${String(k).padStart(3, '0')}`,
    spawnId: 'another',
    disposition: 'keeper' as const,
    hatchedOn: `20${String(10 + Math.floor(k / 50))}-01-01`,
    ...more,
  }));

describe('the fish that stand for a line', () => {
  it('are its keepers of other broods, then others in use, then the brood', () => {
    const own = fish(2, { spawnId: 'own' });
    const held = fish(3, { disposition: 'hold' });
    const keepers = fish(4, {});
    expect(matesAmong([...own, ...held, ...keepers], 'own')).toEqual({
      ...{ are: 'keepers', list: keepers, of: 4 },
    });
    expect(matesAmong([...own, ...held], 'own')).toMatchObject({ are: 'in-use', of: 3 });
    expect(matesAmong(own, 'own')).toMatchObject({ are: 'brood', of: 2 });
  });

  it('are the 200 youngest of 450, and how many there are is told', () => {
    const { list, of } = matesAmong(fish(450, {}), 'own');
    expect([list.length, of]).toEqual([200, 450]);
    expect(list.every(({ hatchedOn }) => hatchedOn >= '2015-01-01')).toBe(true);
  });
});
