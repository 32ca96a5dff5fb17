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

const DAYS_IN_MONTH = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** True for a day that the calendar has, written YYYY-MM-DD. */
export const isCalendarDate = (text: string): boolean => {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (parts === null) return false;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = month === 2 && !leap ? 28 : (DAYS_IN_MONTH[month - 1] ?? 0);
  return day >= 1 && day <= days;
};

/**
 * A moment as programs write it: a day of the calendar, `T` and a time. `null` for another text, and for a day that the
 * calendar does not have: read leniently, 30 February is 2 March.
 *
 * @example momentIn('2026-03-14T08:00:00Z')?.getTime() // 1773475200000
 */
export const momentIn = (text: string): Date | null => {
  if (text[10] !== 'T' || !isCalendarDate(text.slice(0, 10))) return null;
  const at = new Date(text);
  return Number.isNaN(at.getTime()) ? null : at;
};
