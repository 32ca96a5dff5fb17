import { describe, expect, it } from 'vitest';
import type { TraitScore } from './candidate.js';
import { midParent, spreadOf, summariseTrait } from './mid-parent.js';

const score = (
  value: number,
  scoredOn: string,
  traitVersion = 1,
  traitId = 'spread',
): TraitScore => ({
  traitId,
  value,
  scoredOn,
  traitVersion,
});

describe('summariseTrait', () => {
  it('takes the latest score and counts all of that trait', () => {
    const summary = summariseTrait(
      [
        score(170, '2026-03-01'),
        score(180, '2026-05-01'),
        score(9, '2026-06-01', 1, 'other'),
        score(160, '2026-01-01'),
      ],
      'spread',
    );
    expect(summary).toMatchObject({
      value: 180,
      scoredOn: '2026-05-01',
      count: 3,
      lowest: 160,
      highest: 180,
    });
    expect(summary?.deviation).toBeCloseTo(10, 12);
  });

  it('averages scores of one day and leaves out older versions of the trait', () => {
    const summary = summariseTrait(
      [score(3, '2026-01-01', 1), score(7, '2026-05-01', 2), score(8, '2026-05-01', 2)],
      'spread',
    );
    expect(summary).toMatchObject({ value: 7.5, count: 2, traitVersion: 2, lowest: 7 });
  });

  it('is null without scores and has no deviation with one', () => {
    expect(summariseTrait([], 'spread')).toBeNull();
    expect(summariseTrait([score(5, '2026-05-01')], 'spread')).toMatchObject({
      count: 1,
      deviation: null,
    });
  });
});

describe('midParent', () => {
  const sire = summariseTrait([score(170, '2026-03-01'), score(180, '2026-05-01')], 'spread');
  const dam = summariseTrait([score(160, '2026-05-01')], 'spread');
  const spread = spreadOf([sire, dam, null]);

  it('is the mean of the latest scores with their number and range', () => {
    const figure = midParent({ traitId: 'spread', unit: 'degrees' }, sire, dam, spread);
    expect(figure).toMatchObject({
      mean: 170,
      whyNoMean: null,
      count: 3,
      range: [160, 180],
      standing: 0,
      unit: 'degrees',
    });
  });

  it('turns the standing round where low is better', () => {
    const field = { mean: 160, deviation: 5, count: 9 };
    expect(midParent({ traitId: 'spread' }, sire, dam, field).standing).toBe(2);
    expect(midParent({ traitId: 'spread', higherIsBetter: false }, sire, dam, field).standing).toBe(
      -2,
    );
  });

  it('says why there is none', () => {
    const wish = { traitId: 'spread' };
    const newer = summariseTrait([score(4, '2026-06-01', 2)], 'spread');
    expect(midParent(wish, null, dam, spread)).toMatchObject({
      mean: null,
      whyNoMean: 'SIRE_NOT_SCORED',
      count: 1,
    });
    expect(midParent(wish, sire, null, spread).whyNoMean).toBe('DAM_NOT_SCORED');
    expect(midParent(wish, null, null, spread)).toMatchObject({
      whyNoMean: 'NEITHER_SCORED',
      range: null,
      standing: null,
    });
    expect(midParent(wish, sire, newer, spread)).toMatchObject({
      mean: null,
      whyNoMean: 'VERSIONS_DIFFER',
    });
  });
});
