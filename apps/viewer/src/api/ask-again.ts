import type { Exchange, Operation } from '@urql/core';
import { filter, makeSubject, merge, pipe, share, tap } from 'wonka';
import { hasCode } from './problem.js';

/** Waits between two questions, ms: the server is looked for a few times a second and is mostly back in one or two. */
const FIRST_WAIT = 1_000;
const LONGEST_WAIT = 5_000;

/** Reads that wait for the database, and who wants to know whether there are any. */
export class Waiting {
  private readonly keys = new Set<number>();
  private readonly listeners = new Set<() => void>();

  readonly any = (): boolean => this.keys.size > 0;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  begin(key: number): void {
    this.tell(() => this.keys.add(key));
  }

  end(key: number): void {
    this.tell(() => this.keys.delete(key));
  }

  private tell(change: () => void): void {
    const before = this.any();
    change();
    if (before !== this.any()) this.listeners.forEach((listener) => listener());
  }
}

/**
 * Asks a read again, by itself, for as long as the answer is that the database is away: what stands on the page stays there, and nobody
 * has to press anything. A save is told at once, since only the person knows whether it is still meant.
 */
export const askAgain =
  (waiting: Waiting): Exchange =>
  ({ forward }) =>
  (operations$) => {
    const { source: again$, next } = makeSubject<Operation>();
    const timers = new Map<number, ReturnType<typeof setTimeout>>();
    const waits = new Map<number, number>();

    const forget = (key: number): void => {
      clearTimeout(timers.get(key));
      timers.delete(key);
      waits.delete(key);
      waiting.end(key);
    };
    const later = (operation: Operation): void => {
      const { key } = operation;
      const wait = waits.get(key) ?? FIRST_WAIT;
      waits.set(key, Math.min(2 * wait, LONGEST_WAIT));
      clearTimeout(timers.get(key));
      timers.set(
        key,
        setTimeout(() => next(operation), wait),
      );
      waiting.begin(key);
    };

    const asked$ = pipe(
      operations$,
      tap(({ kind, key }) => {
        // Of a page that was left, nothing is asked any more.
        if (kind === 'teardown') forget(key);
      }),
      share,
    );
    return pipe(
      merge([asked$, again$]),
      forward,
      filter(({ operation, error }) => {
        if (operation.kind === 'query' && hasCode(error, 'DATABASE_AWAY')) {
          later(operation);
          return false;
        }
        forget(operation.key);
        return true;
      }),
    );
  };
