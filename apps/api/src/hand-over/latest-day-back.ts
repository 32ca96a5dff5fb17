import { dayAfter } from '@linewright/care';

/** Five years: a fish lives a few. */
const MOST_DAYS_LENT = 5 * 365;

/** The last day on which a loan that begins today may be back. */
export const latestDayBack = (today: string): string => dayAfter(today, MOST_DAYS_LENT);
