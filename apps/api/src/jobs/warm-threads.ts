import { RequestError } from '../errors/request-error.js';
import { type AskOptions, type ThreadOptions, WorkThread } from './thread.js';

interface Waiting {
  readonly thread: WorkThread;
  readonly end: NodeJS.Timeout;
}

export interface WarmOptions {
  readonly heap: NonNullable<ThreadOptions['heap']>;
  /** How long a thread waits for its next task, ms. */
  readonly idleMs: number;
  /** Memory that a waiting thread may hold, MB: one that holds more is ended with its answer. */
  readonly mostHeldMb: number;
}

/**
 * Threads of one program that wait for the next task once they have answered: starting one, loading its program and making its code fast
 * takes longer than most of what they are asked. As many as are asked at once; one that is stopped, fails or holds much memory ends.
 */
export class WarmThreads {
  private readonly waiting: Waiting[] = [];

  constructor(
    private readonly file: string,
    private readonly options: WarmOptions,
  ) {}

  /** @throws what `runInThread` throws. */
  async ask<Answer>(task: object, options: AskOptions): Promise<Answer> {
    options.signal?.throwIfAborted();
    const thread = this.take() ?? new WorkThread(this.file, this.options.heap);
    try {
      const answer = await thread.ask<Answer>(task, options);
      this.keep(thread);
      return answer;
    } catch (error) {
      // What the program refuses is an answer too.
      if (error instanceof RequestError && options.signal?.aborted !== true) this.keep(thread);
      else await thread.end();
      throw error;
    }
  }

  private take(): WorkThread | undefined {
    for (let last = this.waiting.pop(); last !== undefined; last = this.waiting.pop()) {
      clearTimeout(last.end);
      if (last.thread.idle) return last.thread;
    }
    return undefined;
  }

  private keep(thread: WorkThread): void {
    if (!thread.idle || thread.heldMb > this.options.mostHeldMb) {
      void thread.end();
      return;
    }
    const end = setTimeout(() => {
      this.waiting.splice(this.waiting.indexOf(kept), 1);
      void thread.end();
    }, this.options.idleMs).unref();
    const kept = { thread, end };
    this.waiting.push(kept);
  }
}
