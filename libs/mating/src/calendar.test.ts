import { describe, expect, it } from 'vitest';
import { addDays, dayNumber, daysBetween } from './calendar.js';
import { MatingError } from './mating-error.js';

describe('dates', () => {
  it('counts days over a leap day and a year end', () => {
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
    expect(daysBetween('2025-12-31', '2026-01-01')).toBe(1);
    expect(daysBetween('2026-03-02', '2026-03-01')).toBe(-1);
  });

  it('adds days and reads a date with a time of day', () => {
    expect(addDays('2026-11-25', 84)).toBe('2027-02-17');
    expect(dayNumber('1970-01-02T23:59:00Z')).toBe(1);
    expect(daysBetween('0099-03-14', '0100-03-14')).toBe(365);
  });

  it.each(['2026-02-30', '2026-13-01', '25.11.2026', '', '2026-1-1'])(
    'refuses %j by name',
    (date) => {
      expect(() => dayNumber(date)).toThrow(MatingError);
      expect(() => dayNumber(date)).toThrow(
        expect.objectContaining({ code: 'MATING_BAD_DATE', subject: date }) as Error,
      );
    },
  );
});
