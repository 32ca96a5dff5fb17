import { describe, expect, it } from 'vitest';
import { decimalIn, isCalendarDate, momentIn } from './written.js';

describe('a number as people write it', () => {
  it.each([
    ['7,5', 7.5],
    [' 7.5 ', 7.5],
    ['.5', 0.5],
    ['5.', 5],
    ['-3', -3],
    ['1e3', 1000],
    ['', null],
    ['  ', null],
    ['0x1F', null],
    ['1,000,000', null],
    ['12 mm', null],
    ['Infinity', null],
    ['1e999', null],
  ])('"%s" is %s', (text, value) => {
    expect(decimalIn(text)).toBe(value);
  });

  it('has no comma where commas separate columns', () => {
    expect(decimalIn('7,5', { comma: false })).toBeNull();
    expect(decimalIn('7.5', { comma: false })).toBe(7.5);
  });
});

it.each([
  ['2028-02-29', true],
  ['2027-02-29', false],
  ['2026-13-01', false],
  ['26-01-01', false],
  ['2026-01-01T00:00', false],
])('%s is a day of the calendar: %s', (text, is) => {
  expect(isCalendarDate(text)).toBe(is);
});

it('agrees with the calendar of the machine on every day of 801 years, and on what lies between months', () => {
  const had = (text: string): boolean => {
    const time = Date.parse(`${text}T00:00:00Z`);
    return !Number.isNaN(time) && new Date(time).toISOString().slice(0, 10) === text;
  };
  const two = (part: number): string => String(part).padStart(2, '0');
  for (let year = 1599; year < 2400; year += year % 100 === 0 ? 1 : 33)
    for (let month = 0; month <= 13; month++)
      for (let day = 0; day <= 32; day++) {
        const text = `${year}-${two(month)}-${two(day)}`;
        if (isCalendarDate(text) !== had(text)) expect.fail(text);
      }
  expect(isCalendarDate('2000-02-29')).toBe(true);
  expect(isCalendarDate('1900-02-29')).toBe(false);
});

it.each([
  ['2026-03-14T08:00:00Z', '2026-03-14T08:00:00.000Z'],
  ['2026-03-14T08:00+07:00', '2026-03-14T01:00:00.000Z'],
  ['2026-02-30T08:00:00Z', undefined],
  ['2026-03-14', undefined],
  ['2026-03-14T25:00:00Z', undefined],
  ['yesterday', undefined],
])('the moment "%s" is %s', (text, moment) => {
  expect(momentIn(text)?.toISOString()).toBe(moment);
});
