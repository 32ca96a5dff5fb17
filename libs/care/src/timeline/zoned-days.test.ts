import { describe, expect, it } from 'vitest';
import { HOUR } from '../time-units.js';
import { dayAfter, dayIn, startOfDay } from './zoned-days.js';

const iso = (at: number): string => new Date(at).toISOString();

describe('days in a time zone', () => {
  // Transition instants: IANA time zone database, read through Intl and known from the published rules
  // (EU: 01:00 UTC on the last Sundays of March and October; US: 2:00 local on the second Sunday of March).
  it('a day on which the clocks change has 23 or 25 hours', () => {
    const length = (day: string, zone: string) =>
      (startOfDay(dayAfter(day, 1), zone) - startOfDay(day, zone)) / HOUR;
    expect(length('2026-03-29', 'Europe/Berlin')).toBe(23);
    expect(length('2026-10-25', 'Europe/Berlin')).toBe(25);
    expect(length('2026-03-08', 'America/New_York')).toBe(23);
    expect(length('2026-03-29', 'UTC')).toBe(24);
  });

  it('begins where the zone says', () => {
    expect(iso(startOfDay('2026-03-29', 'Europe/Berlin'))).toBe('2026-03-28T23:00:00.000Z');
    expect(iso(startOfDay('2026-03-30', 'Europe/Berlin'))).toBe('2026-03-29T22:00:00.000Z');
    expect(iso(startOfDay('2026-06-01', 'Pacific/Kiritimati'))).toBe('2026-05-31T10:00:00.000Z');
    expect(iso(startOfDay('2026-06-01', 'Pacific/Pago_Pago'))).toBe('2026-06-01T11:00:00.000Z');
    expect(iso(startOfDay('2026-06-01', 'Asia/Kathmandu'))).toBe('2026-05-31T18:15:00.000Z');
  });

  it('begins at the first time that exists where midnight is left out', () => {
    // Beirut puts its clocks from 00:00 to 01:00 on the last Sunday of March.
    expect(iso(startOfDay('2025-03-30', 'Asia/Beirut'))).toBe('2025-03-29T22:00:00.000Z');
    expect(dayIn(startOfDay('2025-03-30', 'Asia/Beirut') - 1, 'Asia/Beirut')).toBe('2025-03-29');
  });

  it('names the day of an instant', () => {
    expect(dayIn(Date.parse('2026-03-29T22:30:00Z'), 'Europe/Berlin')).toBe('2026-03-30');
    expect(dayIn(Date.parse('2026-03-28T22:30:00Z'), 'Europe/Berlin')).toBe('2026-03-28');
  });

  it('refuses a zone or a day that is none', () => {
    expect(() => dayIn(0, 'Middle/Earth')).toThrow(/IANA/);
    expect(() => startOfDay('29.3.2026', 'UTC')).toThrow(/YYYY-MM-DD/);
  });
});
