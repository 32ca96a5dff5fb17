import { describe, expect, it } from 'vitest';
import { inOrderOfDays, weeksIn, weeksWords } from './photo-age.js';

describe('the age of a fish in a picture', () => {
  it('is told in whole weeks, and not where a day is missing or comes before it hatched', () => {
    expect(weeksIn({ takenOn: '2026-03-14' }, '2026-01-01')).toBe(10);
    expect(weeksIn({ takenOn: '2026-01-07' }, '2026-01-01')).toBe(0);
    expect(weeksIn({ takenOn: '2025-12-31' }, '2026-01-01')).toBeNull();
    expect(weeksIn({ takenOn: null }, '2026-01-01')).toBeNull();
    expect(weeksIn({ takenOn: '2026-01-07' }, null)).toBeNull();
    expect([weeksWords(1), weeksWords(10), weeksWords(null)]).toEqual([
      '1 week',
      '10 weeks',
      'age not known',
    ]);
  });

  it('puts pictures in the order of a life, those without a day last', () => {
    const days = inOrderOfDays([
      { takenOn: null },
      { takenOn: '2026-03-01' },
      { takenOn: '2026-01-01' },
    ]);
    expect(days.map(({ takenOn }) => takenOn)).toEqual(['2026-01-01', '2026-03-01', null]);
  });
});
