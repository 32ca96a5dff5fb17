import { Worker } from 'node:worker_threads';
import { HeredityError, type HeredityErrorCode } from '@linewright/heredity';
import type { CarrierAnswer } from './task.js';
import type { CarrierTask } from './carrier-task.js';
import type { FromWorker, ToWorker } from './worker.js';

export interface RunOptions {
  readonly onProgress?: (share: number) => void;
  readonly signal?: AbortSignal;
  /** Answer from a model kept ready in the thread, or not at all. */
  readonly onlyPrepared?: boolean;
}

export const stopped = (): HeredityError =>
  new HeredityError('CANCELLED', 'The computation was stopped before its end.');

/** One thread, asked one thing after another. */
export class TaskThread {
  private readonly worker: Worker;
  private queue: Promise<unknown> = Promise.resolve();
  private waiting = 0;
  private over = false;

  constructor(path: string) {
    this.worker = new Worker(path);
    // A thread that waits for work must not keep the process alive.
    this.worker.unref();
    this.worker.on('exit', () => (this.over = true));
  }

  get idle(): boolean {
    return this.waiting === 0 && !this.over;
  }

  get ended(): boolean {
    return this.over;
  }

  /** Rejects with `CANCELLED` when the signal says so or the thread ends; the thread itself then works on. */
  ask(task: CarrierTask, options: RunOptions = {}): Promise<CarrierAnswer | null> {
    this.waiting += 1;
    const turn = this.queue.then(() => this.askNow(task, options));
    this.queue = turn.catch(() => undefined);
    return turn.finally(() => (this.waiting -= 1));
  }

  async end(): Promise<void> {
    this.over = true;
    await this.worker.terminate();
  }

  private askNow(task: CarrierTask, options: RunOptions): Promise<CarrierAnswer | null> {
    if (this.over || options.signal?.aborted === true) return Promise.reject(stopped());
    const { worker } = this;
    return new Promise((resolve, reject) => {
      const done = (): void => {
        worker.off('message', hear);
        worker.off('error', fail);
        worker.off('exit', gone);
        options.signal?.removeEventListener('abort', gone);
      };
      const fail = (error: Error): void => {
        done();
        reject(error);
      };
      const gone = (): void => fail(stopped());
      const hear = (said: FromWorker): void => {
        if (said.kind === 'progress') {
          options.onProgress?.(said.share);
          return;
        }
        done();
        if (said.kind === 'answer') resolve(said.answer as CarrierAnswer | null);
        else if (said.code !== null)
          reject(new HeredityError(said.code as HeredityErrorCode, said.message));
        else reject(new Error(said.message));
      };
      worker.on('message', hear);
      worker.on('error', fail);
      worker.on('exit', gone);
      options.signal?.addEventListener('abort', gone);
      worker.postMessage({ task, onlyPrepared: options.onlyPrepared ?? false } satisfies ToWorker);
    });
  }
}
