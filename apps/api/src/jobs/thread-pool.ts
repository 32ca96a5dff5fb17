import { type AskOptions, WorkThread } from './thread.js';

/** How the threads of a pool are kept. */
export interface ThreadPoolOptions {
  /** Largest heap of each thread, MB. */
  readonly heap: { readonly young: number; readonly old: number };
  /** A thread that nobody asked for so long is ended, ms. */
  readonly idleMs: number;
  /** A thread that holds more than that when it has answered is ended, MB: what one asker needed is not held for the next. */
  readonly mostKept: number;
}

/**
 * Threads that run one program, kept between tasks: what it has loaded and compiled for one it has for the next. A thread works on one task
 * at a time; how many work at once is for whoever asks. One whose task was stopped, or that ended by itself, is never given out again.
 */
export class ThreadPool {
  private idle: { readonly thread: WorkThread; readonly timer: NodeJS.Timeout }[] = [];

  constructor(
    private readonly file: string,
    private readonly options: ThreadPoolOptions,
  ) {}

  /** Threads that wait for a task. */
  get waiting(): number {
    return this.idle.length;
  }

  /** Rejects as {@link WorkThread.ask} does; the thread is then ended unless the error is the program's own answer. */
  async ask<Answer>(task: object, options: AskOptions): Promise<Answer> {
    options.signal?.throwIfAborted();
    const thread = this.take();
    try {
      return await thread.ask<Answer>(task, options);
    } finally {
      // One whose task was given up is at work on it still.
      if (!thread.atWork && !thread.ended && thread.heldMb <= this.options.mostKept)
        this.keep(thread);
      else await thread.end();
    }
  }

  /** Ends the threads that wait; those at work end when they have answered. */
  async end(): Promise<void> {
    const ended = this.idle.splice(0);
    for (const { timer } of ended) clearTimeout(timer);
    await Promise.all(ended.map(({ thread }) => thread.end()));
  }

  /** The one that answered last: it holds the most of what it needs in the processor's memory, and the others may end. */
  private take(): WorkThread {
    for (;;) {
      const last = this.idle.pop();
      if (last === undefined) return new WorkThread(this.file, this.options.heap);
      clearTimeout(last.timer);
      if (!last.thread.ended) return last.thread;
    }
  }

  private keep(thread: WorkThread): void {
    const timer = setTimeout(() => {
      this.idle = this.idle.filter((one) => one.thread !== thread);
      void thread.end();
    }, this.options.idleMs);
    timer.unref();
    this.idle.push({ thread, timer });
  }
}
