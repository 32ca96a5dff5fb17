import { describe, expect, it } from 'vitest';
import { amountText, currencies, decimalsOf, moneyText, smallestUnits } from './money.js';

describe('money', () => {
  // ISO 4217, list one: minor units of euro, yen, Kuwaiti dinar.
  it.each([
    ['EUR', 2, 1250, 'EUR 12.50', '12.50'],
    ['JPY', 0, 5000, 'JPY 5,000', '5000'],
    ['KWD', 3, 1250, 'KWD 1.250', '1.250'],
  ])('has the decimals of its currency: %s', (currency, decimals, amount, text, typed) => {
    expect(decimalsOf(currency)).toBe(decimals);
    expect(moneyText(amount, currency)).toBe(text);
    expect(amountText(amount, currency)).toBe(typed);
    expect(smallestUnits(Number(typed), currency)).toBe(amount);
  });

  it('is taken as it was typed, or not at all', () => {
    expect(smallestUnits(0.29, 'EUR')).toBe(29);
    expect(smallestUnits(1.005, 'EUR')).toBeNull();
    expect(smallestUnits(0.5, 'JPY')).toBeNull();
    expect(smallestUnits(9_999_999.99, 'EUR')).toBe(999_999_999);
  });

  it('has a list of currencies with their names', () => {
    expect(currencies().find(({ code }) => code === 'THB')?.name).toBe('Thai Baht');
  });
});
