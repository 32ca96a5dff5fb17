import { describe, expect, it } from 'vitest';
import { broodLeft, tooMany, type CountedBrood } from './brood-left.js';

const fish = (disposition: 'UNSORTED' | 'KEEPER' | 'CULLED' | 'DIED', on: string | null) => ({
  disposition,
  dispositionDate: on,
});
const brood: CountedBrood = {
  counts: [
    { stage: 'HATCHED', countedOn: '2026-05-01', number: 90 },
    { stage: 'FREE_SWIMMING', countedOn: '2026-05-10', number: 60 },
  ],
  losses: [
    { on: '2026-05-05', number: 25 },
    { on: '2026-05-10', number: 3 },
    { on: '2026-05-20', number: 10 },
  ],
  fish: [
    fish('UNSORTED', null),
    fish('KEEPER', '2026-07-01'),
    fish('CULLED', '2026-07-02'),
    fish('DIED', '2026-05-09'),
  ],
};

describe('fry left in a brood', () => {
  it('are the last count less what left after it and less the fish with a record', () => {
    // 60 - 10 lost - 1 culled later - 2 here.
    expect(broodLeft(brood)).toEqual({
      left: 47,
      words:
        '60 counted (free-swimming, 2026-05-10), minus 11 lost, culled or placed since, minus 2 fish here with a record of their own',
    });
  });

  it('cannot be told without a count', () => {
    expect(broodLeft({ ...brood, counts: [] })).toBeNull();
    expect(tooMany({ ...brood, counts: [] }, 5000)).toBeNull();
  });

  it('are never fewer than none', () => {
    expect(broodLeft({ ...brood, losses: [{ on: '2026-06-01', number: 80 }] })?.left).toBe(0);
  });

  it('say what is wrong with taking more, with the figures and the remedy', () => {
    expect(tooMany(brood, 47)).toBeNull();
    const words = tooMany(brood, 48);
    expect(words).toMatch(/^48 is more than can be left: 47 fry without a record \(60 counted/);
    expect(words).toMatch(/count the brood again/);
  });
});
