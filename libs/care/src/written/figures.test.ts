import { describe, expect, it } from 'vitest';
import { decimalIn, isCalendarDate } from './figures.js';

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
