import { RequestError } from '../errors/request-error.js';
import { askerGone } from './asker.js';
import { isOutOfMemory, runInThread, threadFile } from './thread.js';
import { type RequestProgram, type RequestTask, runProgram } from './request-programs.js';
import { Turns } from './turns.js';

const threadProgram = threadFile('request-worker.js');

/** Threads at a time, in which requests are worked out; the others wait for their turn. */
const MOST_THREADS = 2;
/** Requests that wait: each holds its input in memory. */
const MOST_WAITING = 20;
/** The longest that one may take, waiting apart. Four times the largest that the limits let in, on a slow machine. */
const BUDGET_MS = 60_000;
/** Heap of a thread, MB: two of them beside the server stay within what a small machine has. */
const HEAP = { young: 16, old: 256 };

const turns = new Turns(MOST_THREADS, MOST_WAITING);

/**
 * Lets work that has a thread of its own wait for its turn among those of other requests.
 *
 * @throws RequestError `WORK_TOO_LONG` when too many wait already; `JOB_CANCELLED` to nobody, who has gone; and what the work throws.
 */
export const inTurn = <Answer>(work: () => Promise<Answer>): Promise<Answer> =>
  turns.take(work, askerGone());

/**
 * Works a part of a request out in a thread, so that the process goes on answering others meanwhile. The thread ends with the answer,
 * with its budget, or as soon as whoever asked has gone.
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
  return turns.take(async (): Promise<Answer> => {
    if (threadProgram === undefined) return (await runProgram(task)) as Answer;
    const spent = AbortSignal.timeout(BUDGET_MS);
    try {
      return await runInThread<Answer>(threadProgram, task, {
        signal: gone === undefined ? spent : AbortSignal.any([spent, gone]),
        heap: HEAP,
        onProgress: () => undefined,
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
  }, gone);
};
