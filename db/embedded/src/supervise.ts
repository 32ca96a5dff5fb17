import { setTimeout as pause } from 'node:timers/promises';

/** What a supervisor looks at and does; all of it may fail by throwing. */
export interface Supervised {
  /** Whether the server is there. */
  alive(): boolean | Promise<boolean>;
  /** Starts it again on the port it had, or attaches to the one that another process has started. */
  restart(): Promise<void>;
}

export interface SupervisionOptions {
  /** Milliseconds between looks. */
  readonly everyMs: number;
  /** Restarts in {@link withinMs} that are borne; one more and it is given up. */
  readonly restarts: number;
  readonly withinMs: number;
  readonly onLost: () => void;
  readonly onBack: () => void;
  /** It cannot be brought back: the last error. Called once, after which nothing is looked at any more. */
  readonly onGivenUp: (error: unknown) => void;
}

export interface Supervisor {
  /** Ends it; waits for a restart under way. */
  stop(): Promise<void>;
}

const tooOften = (times: number, withinMs: number): Error =>
  new Error(
    `The database server went away ${times} times in ${Math.round(withinMs / 60_000)} minutes.`,
  );

/** Looks at a server from time to time and starts it again when it is gone. */
export const supervise = (server: Supervised, options: SupervisionOptions): Supervisor => {
  const ended = new AbortController();
  const restarts: number[] = [];
  const bringBack = async (): Promise<void> => {
    const now = performance.now();
    while (restarts[0] !== undefined && restarts[0] < now - options.withinMs) restarts.shift();
    if (restarts.length >= options.restarts) throw tooOften(restarts.length + 1, options.withinMs);
    restarts.push(now);
    options.onLost();
    await server.restart();
    options.onBack();
  };
  const watch = async (): Promise<void> => {
    while (!ended.signal.aborted) {
      await pause(options.everyMs, undefined, { signal: ended.signal, ref: false }).catch(() => {});
      if (ended.signal.aborted || (await server.alive())) continue;
      // What was stopped in order meanwhile is not brought back.
      if (!ended.signal.aborted) await bringBack();
    }
  };
  const watching = watch().catch((error: unknown) => {
    if (!ended.signal.aborted) options.onGivenUp(error);
  });
  return {
    stop: () => {
      ended.abort();
      return watching;
    },
  };
};
