import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { getHeapStatistics } from 'node:v8';
import { parentPort, Worker } from 'node:worker_threads';
import { RequestError, type RequestErrorCode } from '../errors/request-error.js';
import { type ToldError, toldByCode } from '../errors/told-by-code.js';

/** What a thread is told: its task, and that what it made ready may be kept. */
type Told = { readonly kind: 'task'; readonly task: unknown } | { readonly kind: 'keep' };

/** What a thread says: how far it is, what it has so far, that all is ready to be kept, then the answer or the error. */
type Said =
  | { readonly kind: 'progress'; readonly share: number }
  | { readonly kind: 'so far'; readonly answer: unknown }
  | { readonly kind: 'ready' }
  | { readonly kind: 'answer'; readonly answer: unknown; readonly heldMb?: number }
  | {
      readonly kind: 'error';
      readonly message: string;
      /** Of an error for whoever asked; else null. */
      readonly code: string | null;
      readonly details: Readonly<Record<string, unknown>>;
      readonly heldMb?: number;
    };

export interface AskOptions {
  readonly onProgress?: (share: number) => void;
  /** Told the answer as it stands, by work that gets better the longer it runs. */
  readonly onSoFar?: (answer: unknown) => void;
  /** Once the thread was told that it may keep what it made ready, it is too late to stop it. */
  readonly signal?: AbortSignal;
  /** What whoever asked is told when the signal or the thread's end comes before the answer. */
  readonly stopped?: () => Error;
}

export interface ThreadOptions extends AskOptions {
  /** Largest heap of the thread in MB: what is no longer used is given back early. None: as the runtime sees fit. */
  readonly heap?: { readonly young: number; readonly old: number };
}

/** A thread's program stands beside the bundle; when run from the source it is taken from the last build. */
export const threadFile = (name: string): string | undefined =>
  [`./${name}`, `../${name}`, `../../dist/${name}`]
    .map((place) => fileURLToPath(new URL(place, import.meta.url)))
    .find((path) => existsSync(path));

/** A thread that wanted more than its heap was ended by the runtime. */
export const isOutOfMemory = (error: unknown): boolean =>
  (error as { code?: unknown }).code === 'ERR_WORKER_OUT_OF_MEMORY';

/** A lib's error comes back with its code and details, as an answer to the request. */
const errorSaid = ({ message, code, details }: Extract<Said, { kind: 'error' }>): Error =>
  code === null ? new Error(message) : new RequestError(code as RequestErrorCode, message, details);

const cutOff = (): Error => new Error('The thread was stopped before its end.');

/** A thread that is asked one thing after another. Tasks and answers are copied between the two. */
export class WorkThread {
  private readonly worker: Worker;
  private queue: Promise<unknown> = Promise.resolve();
  private waiting = 0;
  private over = false;
  private unanswered = false;
  private held = 0;

  constructor(file: string, heap?: ThreadOptions['heap']) {
    this.worker = new Worker(file, {
      ...(heap !== undefined && {
        resourceLimits: { maxYoungGenerationSizeMb: heap.young, maxOldGenerationSizeMb: heap.old },
      }),
    });
    // A server that stops must not wait for it.
    this.worker.unref();
    // Whoever waits for an answer hears of it; while nobody does, it must not end the process.
    this.worker.on('error', () => (this.over = true));
    this.worker.on('exit', () => (this.over = true));
  }

  get idle(): boolean {
    return this.waiting === 0 && !this.over;
  }

  get ended(): boolean {
    return this.over;
  }

  /** Told to do a task whose answer or error has not come, whether or not anybody waits for it still. */
  get atWork(): boolean {
    return this.unanswered;
  }

  /** MB on its heap when it had answered last. */
  get heldMb(): number {
    return this.held;
  }

  /** Rejects when the signal says so or the thread ends; the thread itself then works on, until it is ended. */
  ask<Answer>(task: object, options: AskOptions = {}): Promise<Answer> {
    this.waiting += 1;
    const turn = this.queue.then(() => this.askNow<Answer>(task, options));
    this.queue = turn.catch(() => undefined);
    return turn.finally(() => (this.waiting -= 1));
  }

  async end(): Promise<void> {
    this.over = true;
    await this.worker.terminate();
  }

  private askNow<Answer>(
    task: object,
    { onProgress, onSoFar, signal, stopped = cutOff }: AskOptions,
  ): Promise<Answer> {
    if (this.over || signal?.aborted === true) return Promise.reject(stopped());
    const { worker } = this;
    let forget = (): void => undefined;
    const tell = (told: Told): void => worker.postMessage(told);
    return new Promise<Answer>((resolve, reject) => {
      let keeping = false;
      const gone = (): void => reject(stopped());
      const stop = (): void => {
        if (!keeping) gone();
      };
      const hear = (said: Said): void => {
        if (said.kind === 'progress') onProgress?.(said.share);
        else if (said.kind === 'so far') onSoFar?.(said.answer);
        else if (said.kind === 'answer' || said.kind === 'error') {
          this.unanswered = false;
          this.held = said.heldMb ?? 0;
          if (said.kind === 'answer') resolve(said.answer as Answer);
          else reject(errorSaid(said));
        } else if (signal?.aborted !== true) {
          keeping = true;
          tell({ kind: 'keep' });
        }
      };
      worker.on('message', hear).on('error', reject).on('exit', gone);
      signal?.addEventListener('abort', stop);
      forget = () => {
        worker.off('message', hear).off('error', reject).off('exit', gone);
        signal?.removeEventListener('abort', stop);
      };
      this.unanswered = true;
      tell({ kind: 'task', task });
    }).finally(() => forget());
  }
}

/** Works one task out in a thread of its own, so that the process goes on answering; the thread ends with it, or at once when the signal says so. */
export const runInThread = async <Answer>(
  file: string,
  task: object,
  { heap, ...options }: ThreadOptions,
): Promise<Answer> => {
  options.signal?.throwIfAborted();
  const thread = new WorkThread(file, heap);
  try {
    return await thread.ask<Answer>(task, options);
  } finally {
    await thread.end();
  }
};

const MB = 1024 * 1024;
const heldMb = (): number => getHeapStatistics().used_heap_size / MB;

const EVERY_MS = 100;

/**
 * Passes on how far a thread is, ten times a second at the most: a message has its price. The first share that says something always
 * goes: work may be shorter than that.
 */
export const paced = (say: (share: number) => void): ((share: number) => void) => {
  let last = -Infinity;
  let told = false;
  return (share) => {
    const now = performance.now();
    const first = !told && share > 0;
    if (!first && now - last < EVERY_MS) return;
    last = now;
    told ||= share > 0;
    say(share);
  };
};

/** What the program of a thread is given beside its task. */
export interface ThreadWork {
  readonly onProgress: (share: number) => void;
  /** Tells the answer as it stands; as rarely as it is worth writing down. */
  readonly soFar: (answer: unknown) => void;
  /** Asked when all is ready: true once whoever asked lets it be kept. Who does not ends the thread. */
  readonly mayKeep: () => Promise<boolean>;
}

/**
 * The program of such a thread: takes a task and answers it, one after another. `told` says which errors are for whoever asked; those
 * of the database only where a thread works with it, for they bring all of its driver along.
 */
export const answerInThread = <Task>(
  run: (task: Task, work: ThreadWork) => unknown,
  told: (error: unknown) => ToldError | null = toldByCode,
): void => {
  const say = (said: Said): void => parentPort?.postMessage(said);
  let keep: () => void = () => undefined;
  const mayKeep = (): Promise<boolean> =>
    new Promise((resolve) => {
      keep = () => resolve(true);
      say({ kind: 'ready' });
    });
  const work = async (task: Task): Promise<void> => {
    try {
      const onProgress = paced((share) => say({ kind: 'progress', share }));
      const soFar = (answer: unknown): void => say({ kind: 'so far', answer });
      const answer = await run(task, { onProgress, soFar, mayKeep });
      say({ kind: 'answer', answer, heldMb: heldMb() });
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      const { code, details } = told(error) ?? { code: null, details: {} };
      say({ kind: 'error', message, code, details, heldMb: heldMb() });
    }
  };
  parentPort?.on('message', (heard: Told) => {
    if (heard.kind === 'keep') keep();
    else void work(heard.task as Task);
  });
};
