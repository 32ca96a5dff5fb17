import { describe, expect, it } from 'vitest';
import { DAY, HOUR, daysBetween, hoursText } from './time-units.js';

describe('units of time', () => {
  it('are milliseconds', () => {
    expect(HOUR).toBe(60 * 60 * 1000);
    expect(DAY).toBe(Date.parse('2026-03-11T00:00:00Z') - Date.parse('2026-03-10T00:00:00Z'));
  });

  it('count calendar days whatever the clocks do', () => {
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(daysBetween('2026-11-02', '2026-10-24')).toBe(-9);
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
    expect(daysBetween('2026-03-28', '')).toBeNaN();
  });

  it.each([
    [0, '0 min'],
    [0.5, '30 min'],
    [-0.25, '15 min'],
    [0.9999, '1 h'],
    [1, '1 h'],
    [1.5, '1.5 h'],
    [9.96, '10 h'],
    [30, '30 h'],
    [47.7, '2 d'],
    [48, '2 d'],
    [71.8, '3 d'],
    [72, '3 d'],
    [100, '4 d 4 h'],
    [-100, '4 d 4 h'],
    [200, '8 d'],
    [24 * 56, '56 d'],
  ])('%f hours are said as %s', (hours, words) => {
    expect(hoursText(hours)).toBe(words);
  });
});
