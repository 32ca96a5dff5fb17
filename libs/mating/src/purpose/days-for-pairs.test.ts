import { describe, expect, it } from 'vitest';
import { dayForPairs, isOutsideDays } from './days-for-pairs.js';

describe('the days for pairs of a round', () => {
  it('begin today, or on the first day that was given', () => {
    expect(dayForPairs({ earliest: null, latest: null }, '2026-03-10')).toBe('2026-03-10');
    expect(dayForPairs({ earliest: '2026-03-01', latest: null }, '2026-03-10')).toBe('2026-03-10');
    expect(dayForPairs({ earliest: '2026-04-01', latest: null }, '2026-03-10')).toBe('2026-04-01');
  });

  it('hold both ends', () => {
    const days = { earliest: '2026-03-01', latest: '2026-03-31' };
    expect(
      ['2026-02-28', '2026-03-01', '2026-03-31', '2026-04-01'].map((day) =>
        isOutsideDays(days, day),
      ),
    ).toEqual([true, false, false, true]);
    expect(isOutsideDays({ earliest: null, latest: null }, '2026-04-01')).toBe(false);
  });
});
