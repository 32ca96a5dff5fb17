/** Milliseconds of an hour: instants here are milliseconds since 1970. */
export const HOUR = 3_600_000;
/** Milliseconds of 24 hours. A day of a calendar has 23 or 25 of them where the clocks change: see `startOfDay`. */
export const DAY = 24 * HOUR;

/**
 * Whole days from one calendar day to another, both `YYYY-MM-DD`; negative when `to` is earlier, `NaN` for a text that is
 * no day (such as a field half typed).
 *
 * @example daysBetween('2026-03-10', '2026-03-14') // 4
 */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / DAY);

/**
 * A stretch of hours as people say it, without its sign: minutes under an hour, hours under two days, then days.
 *
 * @example hoursText(0.5) // '30 min'
 * @example hoursText(30) // '30 h'
 * @example hoursText(100) // '4 d 4 h'
 */
export const hoursText = (hours: number): string => {
  const whole = Math.abs(hours);
  const minutes = Math.round(whole * 60);
  if (minutes < 60) return `${minutes} min`;
  const rounded = whole < 10 ? Math.round(whole * 10) / 10 : Math.round(whole);
  if (rounded < 48) return `${rounded} h`;
  const days = Math.floor(Math.round(whole) / 24);
  const rest = Math.round(whole) - days * 24;
  return rest === 0 || days >= 7 ? `${Math.round(whole / 24)} d` : `${days} d ${rest} h`;
};
