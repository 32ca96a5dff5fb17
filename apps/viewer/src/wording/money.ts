/** Money is kept in the smallest unit of its currency. How many decimals that is, ECMA-402 takes from ISO 4217 (`CurrencyDigits`). */

/** Decimals of a currency: 2 of EUR, none of JPY, 3 of KWD; 2 of letters that are no known currency. */
export function decimalsOf(currency: string): number {
  return (
    new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions()
      .maximumFractionDigits ?? 2
  );
}

/** An amount as it is written: 1250 of EUR is "EUR 12.50". */
export function moneyText(amount: number, currency: string): string {
  const decimals = decimalsOf(currency);
  return new Intl.NumberFormat('en', { style: 'currency', currency, currencyDisplay: 'code' })
    .format(amount / 10 ** decimals)
    .replaceAll('\u00a0', ' ');
}

/** An amount for a form: 1250 of EUR is "12.50". */
export function amountText(amount: number, currency: string): string {
  const decimals = decimalsOf(currency);
  return (amount / 10 ** decimals).toFixed(decimals);
}

/** The smallest units of an amount that was typed; `null` where it has more decimals than its currency. */
export function smallestUnits(amount: number, currency: string): number | null {
  const exact = amount * 10 ** decimalsOf(currency);
  const whole = Math.round(exact);
  return Math.abs(exact - whole) < 1e-6 ? whole : null;
}

/** Every currency that this browser knows, by its code and name; without a list, those that are asked for most. */
export function currencies(): readonly { readonly code: string; readonly name: string }[] {
  const codes =
    typeof Intl.supportedValuesOf === 'function'
      ? Intl.supportedValuesOf('currency')
      : ['EUR', 'GBP', 'IDR', 'JPY', 'THB', 'USD'];
  const names = new Intl.DisplayNames('en', { type: 'currency' });
  return codes.map((code) => ({ code, name: names.of(code) ?? code }));
}
