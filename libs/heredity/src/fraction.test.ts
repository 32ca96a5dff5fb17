import { describe, expect, it } from 'vitest';
import {
  compareFractions,
  divideFractions,
  formatFraction,
  fraction,
  fractionToNumber,
  ratioText,
  sumFractions,
  toFraction,
  toProbability,
} from './fraction.js';

describe('fractions', () => {
  it.each([
    ['3/16', '3/16'],
    ['6/32', '3/16'],
    ['0.1875', '3/16'],
    [' 2 ', '2'],
    ['1e-3', '1/1000'],
    ['-.5', '-1/2'],
    [0.1, '1/10'],
    [1e-7, '1/10000000'],
    [3, '3'],
    [5n, '5'],
    [fraction(4, -6), '-2/3'],
  ])('reads %s exactly', (input, text) => {
    expect(formatFraction(toFraction(input))).toBe(text);
  });
  it.each(['', 'x', '1/0', '3/', '50%', '1.2.3'])('refuses "%s"', (text) => {
    expect(() => toFraction(text)).toThrowError(
      expect.objectContaining({ code: 'FRACTION_INVALID' }) as Error,
    );
  });
  it.each([NaN, Infinity])('refuses %s', (value) => {
    expect(() => toFraction(value)).toThrowError(
      expect.objectContaining({ code: 'FRACTION_INVALID' }) as Error,
    );
  });
  it.each(['-1/10', '11/10', 25])('%s is no probability', (value) => {
    expect(() => toProbability(value)).toThrowError(
      expect.objectContaining({ code: 'PROBABILITY_OUT_OF_RANGE' }) as Error,
    );
  });
  it('computes', () => {
    expect(formatFraction(sumFractions([fraction(1, 3), fraction(1, 6), fraction(1, 2)]))).toBe(
      '1',
    );
    expect(formatFraction(divideFractions(fraction(1, 3), fraction(2, 3)))).toBe('1/2');
    expect(compareFractions(fraction(1, 3), fraction(2, 7))).toBeGreaterThan(0);
    expect(ratioText([fraction(9, 16), fraction(3, 8), fraction(1, 16)])).toBe('9:6:1');
    expect(ratioText([fraction(1, 2), fraction(0), fraction(1, 2)])).toBe('1:0:1');
  });
  it('becomes the nearest double, however long its digits', () => {
    expect(fractionToNumber(fraction(1, 3))).toBe(1 / 3);
    expect(fractionToNumber({ numerator: 10n ** 400n, denominator: 3n * 10n ** 400n })).toBe(1 / 3);
    expect(fractionToNumber({ numerator: 1n, denominator: 10n ** 300n })).toBe(1e-300);
    expect(fractionToNumber({ numerator: -(10n ** 30n), denominator: 4n })).toBe(-2.5e29);
    expect(fractionToNumber({ numerator: 1n, denominator: 10n ** 500n })).toBe(0);
  });
});
