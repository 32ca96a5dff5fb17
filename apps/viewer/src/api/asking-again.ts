import type { Problem } from './problem.js';

const FIRST_WAIT_MS = 1_000;
const LONGEST_WAIT_MS = 8_000;

/** The API answers, its database does not yet: it is being started again. */
const isAway = (problem: Problem | null): boolean => problem?.code === 'DATABASE_AWAY';

/** Said beside what was only read: nothing was typed, so nothing is lost, and nobody need press anything. */
const AWAY_WHILE_READING =
  'The database is being started again. What was saved is kept. This page asks again by itself every few seconds until the database answers: you need not do anything.';

/** The problem as a page that only reads tells it. */
export const whileReading = (problem: Problem): Problem =>
  isAway(problem) ? { ...problem, message: AWAY_WHILE_READING } : problem;

/** Asks again by itself while the database is away: soon at first, then every eight seconds; anything else is left to a person. */
export class AskingAgain {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private tries = 0;

  /** @param ask is what was called last; each try ends in a `told`. */
  told(problem: Problem | null, ask: () => void): void {
    this.rest();
    if (!isAway(problem)) {
      this.tries = 0;
      return;
    }
    const wait = Math.min(FIRST_WAIT_MS * 2 ** this.tries, LONGEST_WAIT_MS);
    this.tries += 1;
    this.timer = setTimeout(ask, wait);
  }

  /** Nobody looks any more. */
  rest(): void {
    clearTimeout(this.timer);
  }
}
