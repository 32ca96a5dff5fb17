const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/**
 * A number as people write it: with a point or a comma before the decimals, blanks around it left aside.
 *
 * `null` for anything else: nothing typed, words, hexadecimal, thousands set apart, or more than a number can hold.
 * @param comma whether a comma may stand before the decimals; not so where commas separate the columns of a file
 * @example decimalIn('7,5') // 7.5
 */
export const decimalIn = (text: string, { comma = true } = {}): number | null => {
  const plain = comma ? text.trim().replace(',', '.') : text.trim();
  const value = Number(plain);
  return DECIMAL.test(plain) && Number.isFinite(value) ? value : null;
};

/** True for a day that the calendar has, written YYYY-MM-DD. */
export const isCalendarDate = (text: string): boolean => {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().slice(0, 10) === text;
};
