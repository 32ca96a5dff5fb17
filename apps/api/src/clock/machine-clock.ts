import { Clock } from './clock.js';

/** The clock of this machine, `aheadMs` milliseconds ahead of it where a test asked for another day. */
export const machineClock = (aheadMs = 0): Clock =>
  new Clock(() => Date.now() + aheadMs, Intl.DateTimeFormat().resolvedOptions().timeZone);
