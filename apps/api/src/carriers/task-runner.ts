import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { HeredityError, type HeredityErrorCode } from '@linewright/heredity';
import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { type CarrierAnswer, type CarrierTask, runTask } from './task.js';
import type { FromWorker } from './worker.js';

export interface RunOptions {
  readonly onProgress?: (share: number) => void;
  readonly signal?: AbortSignal;
}

/** The thread's program stands beside the bundle; when run from the source it is taken from the last build. */
const workerFile = ['./carrier-worker.js', '../carrier-worker.js', '../../dist/carrier-worker.js']
  .map((place) => fileURLToPath(new URL(place, import.meta.url)))
  .find((path) => existsSync(path));

const stopped = (): HeredityError =>
  new HeredityError('CANCELLED', 'The computation was stopped before its end.');

/** Works tasks out in a thread, so that the process goes on answering. Short ones share one thread; long ones have their own. */
@Injectable()
export class TaskRunner implements OnApplicationShutdown {
  private readonly threads = new Set<Worker>();
  private shared: Worker | null = null;
  private queue: Promise<unknown> = Promise.resolve();

  /** One after another in the shared thread. */
  run(task: CarrierTask): Promise<CarrierAnswer> {
    const turn = this.queue.then(() => {
      if (workerFile === undefined) return runTask(task);
      this.shared ??= this.open(workerFile);
      return this.ask(this.shared, task, {});
    });
    this.queue = turn.catch(() => undefined);
    return turn;
  }

  /** In a thread of its own, which ends with it, or at once when the signal says so. */
  async runAlone(task: CarrierTask, options: RunOptions): Promise<CarrierAnswer> {
    if (options.signal?.aborted === true) throw stopped();
    if (workerFile === undefined) return runTask(task);
    const thread = this.open(workerFile);
    try {
      return await this.ask(thread, task, options);
    } finally {
      this.threads.delete(thread);
      await thread.terminate();
    }
  }

  async onApplicationShutdown(): Promise<void> {
    await Promise.all([...this.threads].map((thread) => thread.terminate()));
  }

  private open(path: string): Worker {
    const thread = new Worker(path);
    // A thread that waits for work must not keep the process alive.
    thread.unref();
    this.threads.add(thread);
    return thread;
  }

  private ask(thread: Worker, task: CarrierTask, options: RunOptions): Promise<CarrierAnswer> {
    return new Promise((resolve, reject) => {
      const done = (): void => {
        thread.off('message', hear);
        thread.off('error', fail);
        thread.off('exit', gone);
        options.signal?.removeEventListener('abort', gone);
      };
      const fail = (error: Error): void => {
        done();
        if (thread === this.shared) this.shared = null;
        reject(error);
      };
      const gone = (): void => fail(stopped());
      const hear = (said: FromWorker): void => {
        if (said.kind === 'progress') {
          options.onProgress?.(said.share);
          return;
        }
        done();
        if (said.kind === 'answer') resolve(said.answer as CarrierAnswer);
        else if (said.code !== null)
          reject(new HeredityError(said.code as HeredityErrorCode, said.message));
        else reject(new Error(said.message));
      };
      thread.on('message', hear);
      thread.on('error', fail);
      thread.on('exit', gone);
      options.signal?.addEventListener('abort', gone);
      thread.postMessage(task);
    });
  }
}
