import { availableParallelism } from 'node:os';
import { nameOfActor } from '../access/acting.js';
import { RequestError } from '../errors/request-error.js';
import { askerGone } from './asker.js';
import { isOutOfMemory, threadFile } from './thread.js';
import { ThreadPool } from './thread-pool.js';
import { type RequestProgram, type RequestTask, runProgram } from './request-programs.js';
import { Turns } from './turns.js';

const threadProgram = threadFile('request-worker.js');

/** Threads at a time, in which requests are worked out: as many as there are cores, and on a large machine so many at most. */
const MOST_THREADS = Math.max(2, Math.min(8, availableParallelism()));
/** Requests that wait: each holds its input in memory. */
const MOST_WAITING = { waiting: 100, waitingOfOne: 20 };
/** The longest that one may take, waiting apart. Four times the largest that the limits let in, on a slow machine. */
const BUDGET_MS = 60_000;
/** Heap of a thread, MB: two of them beside the server stay within what a small machine has. */
const HEAP = { young: 16, old: 256 };
/** Threads wait so long for more work, ms, and hold so much meanwhile, MB: some 10 are code. */
const KEPT = { idleMs: 20_000, mostKept: 96 };

const turns = new Turns({ working: MOST_THREADS, ...MOST_WAITING });
const pool =
  threadProgram === undefined ? null : new ThreadPool(threadProgram, { heap: HEAP, ...KEPT });

/**
 * Lets work that has a thread of its own wait for its turn among those of other requests.
 *
 * @throws RequestError `WORK_TOO_LONG` when too many wait already; `JOB_CANCELLED` to nobody, who has gone; and what the work throws.
 */
export const inTurn = <Answer>(work: () => Promise<Answer>): Promise<Answer> =>
  turns.take(nameOfActor(), work, askerGone());

/**
 * Works a part of a request out in a thread, so that the process goes on answering others meanwhile. Threads are kept for the next request;
 * one is ended with its budget, or as soon as whoever asked has gone. Those who ask take turns.
 *
 * @throws RequestError `WORK_TOO_LONG` when its time is spent, or too many wait already; `JOB_CANCELLED` to nobody, who has gone; and
 * what the program throws.
 */
export const besideTheLoop = <Given extends readonly unknown[], Returned>(
  program: RequestProgram<Given, Returned>,
  ...given: Given
): Promise<Awaited<Returned>> => {
  type Answer = Awaited<Returned>;
  const task: RequestTask = { program: program.name, given };
  const gone = askerGone();
  const work = async (): Promise<Answer> => {
    if (pool === null) return (await runProgram(task)) as Answer;
    const spent = AbortSignal.timeout(BUDGET_MS);
    try {
      return await pool.ask<Answer>(task, {
        signal: gone === undefined ? spent : AbortSignal.any([spent, gone]),
      });
    } catch (error) {
      if (isOutOfMemory(error)) {
        throw new RequestError(
          'WORK_TOO_LONG',
          `This took more than ${HEAP.old} MB of memory and was stopped: ask for less at once.`,
        );
      }
      gone?.throwIfAborted();
      if (!spent.aborted) throw error;
      throw new RequestError(
        'WORK_TOO_LONG',
        `This took more than ${BUDGET_MS / 1000} seconds and was stopped: ask for less at once.`,
      );
    }
  };
  return turns.take(nameOfActor(), work, gone);
};
