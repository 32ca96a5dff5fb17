import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { HeredityError } from '@linewright/heredity';
import { type AskOptions, threadFile, WorkThread } from '../jobs/thread.js';
import { PreparedModels } from './prepared-models.js';
import { type CarrierAnswer, runTask } from './task.js';
import type { AskedOfThread, CarrierTask, PreparedTask } from './carrier-task.js';

const stopped = (): HeredityError =>
  new HeredityError('CANCELLED', 'The computation was stopped before its end.');

/** Null: nothing is kept ready to answer it from. */
type Answered = CarrierAnswer | null;

const ask = (
  thread: WorkThread,
  task: AskedOfThread,
  options: AskOptions = {},
): Promise<Answered> => thread.ask<Answered>(task, { stopped, ...options });

const workerFile = threadFile('carrier-worker.js');

/** Threads kept after a long computation, each with the model of one locus ready. */
const MOST_KEPT = 3;

/**
 * Works tasks out in threads, so that the process goes on answering. Short ones share one thread. A long one has its own,
 * which is kept afterwards for questions about the same locus: a record more is then taken in without building all anew.
 */
@Injectable()
export class TaskRunner implements OnApplicationShutdown {
  private readonly threads = new Set<WorkThread>();
  private readonly kept = new Map<string, WorkThread>();
  private shared: WorkThread | null = null;
  /** Without the thread's program everything runs in the process itself. */
  private readonly own = new PreparedModels(2);

  /** One after another in the shared thread. */
  async run(task: CarrierTask): Promise<CarrierAnswer> {
    if (workerFile === undefined) return this.inProcess(task);
    if (this.shared === null || this.shared.ended) this.shared = this.open(workerFile);
    return answered(await ask(this.shared, task));
  }

  /** From the thread kept for the locus, if that has a model ready to which only a few records must be added; else null. */
  async runPrepared(task: PreparedTask): Promise<CarrierAnswer | null> {
    const thread = this.kept.get(task.locus.id);
    // One that works on a long computation would keep the question waiting.
    if (thread?.idle !== true) return null;
    return ask(thread, task);
  }

  /** In a thread of its own, ended at once when the signal says so. */
  async runLong(task: CarrierTask, options: AskOptions): Promise<CarrierAnswer> {
    if (options.signal?.aborted === true) throw stopped();
    if (workerFile === undefined) return this.inProcess(task);
    const { id } = task.locus;
    const standing = this.kept.get(id);
    const thread = standing?.idle === true ? standing : this.open(workerFile);
    let answer: Answered;
    try {
      answer = await ask(thread, task, options);
    } catch (error) {
      if (this.kept.get(id) === thread) this.kept.delete(id);
      await this.close(thread);
      throw error;
    }
    // A model that had to be sampled cannot be added to.
    const ready = task.ask.kind === 'all' && answer?.method?.kind === 'exact';
    if (ready || thread === standing) await this.keep(id, thread);
    else await this.close(thread);
    return answered(answer);
  }

  async onApplicationShutdown(): Promise<void> {
    await Promise.all([...this.threads].map((thread) => thread.end()));
  }

  private inProcess(task: CarrierTask): CarrierAnswer {
    return answered(runTask(task, this.own));
  }

  private open(path: string): WorkThread {
    const thread = new WorkThread(path);
    this.threads.add(thread);
    return thread;
  }

  private async close(thread: WorkThread): Promise<void> {
    this.threads.delete(thread);
    await thread.end();
  }

  private async keep(locusId: string, thread: WorkThread): Promise<void> {
    const before = this.kept.get(locusId);
    this.kept.delete(locusId);
    this.kept.set(locusId, thread);
    if (before !== undefined && before !== thread) await this.close(before);
    const [oldest] = this.kept;
    if (this.kept.size <= MOST_KEPT || oldest === undefined) return;
    this.kept.delete(oldest[0]);
    await this.close(oldest[1]);
  }
}

const answered = (answer: CarrierAnswer | null): CarrierAnswer => {
  if (answer === null)
    throw new Error('A task that was to be worked out came back without an answer.');
  return answer;
};
