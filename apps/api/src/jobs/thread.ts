import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parentPort, Worker } from 'node:worker_threads';
import { toldError } from '../errors/format-error.js';
import { RequestError, type RequestErrorCode } from '../errors/request-error.js';

/** What a thread says: how far it is, then the answer or the error. */
type Said =
  | { readonly kind: 'progress'; readonly share: number }
  | { readonly kind: 'answer'; readonly answer: unknown }
  | {
      readonly kind: 'error';
      readonly message: string;
      /** Of an error for whoever asked; else null. */
      readonly code: string | null;
      readonly details: Readonly<Record<string, unknown>>;
    };

export interface ThreadOptions {
  readonly onProgress: (share: number) => void;
  readonly signal: AbortSignal;
  /** Largest heap of the thread in MB: what is no longer used is given back early. None: as the runtime sees fit. */
  readonly heap?: { readonly young: number; readonly old: number };
}

/** A thread's program stands beside the bundle; when run from the source it is taken from the last build. */
export const threadFile = (name: string): string | undefined =>
  [`./${name}`, `../${name}`, `../../dist/${name}`]
    .map((place) => fileURLToPath(new URL(place, import.meta.url)))
    .find((path) => existsSync(path));

/** A lib's error comes back with its code and details, as an answer to the request. */
const errorSaid = ({ message, code, details }: Extract<Said, { kind: 'error' }>): Error =>
  code === null ? new Error(message) : new RequestError(code as RequestErrorCode, message, details);

/**
 * Works one task out in a thread of its own, so that the process goes on answering; the thread ends with it, or at once when the
 * signal says so. Task and answer are copied between the two.
 */
export const runInThread = async <Answer>(
  file: string,
  task: object,
  { onProgress, signal, heap }: ThreadOptions,
): Promise<Answer> => {
  signal.throwIfAborted();
  const thread = new Worker(file, {
    ...(heap !== undefined && {
      resourceLimits: { maxYoungGenerationSizeMb: heap.young, maxOldGenerationSizeMb: heap.old },
    }),
  });
  // A server that stops must not wait for it.
  thread.unref();
  try {
    return await new Promise<Answer>((resolve, reject) => {
      const gone = (): void => reject(new Error('The thread was stopped before its end.'));
      signal.addEventListener('abort', gone, { once: true });
      thread.on('exit', gone);
      thread.on('error', reject);
      thread.on('message', (said: Said) => {
        if (said.kind === 'progress') onProgress(said.share);
        else if (said.kind === 'answer') resolve(said.answer as Answer);
        else reject(errorSaid(said));
      });
      thread.postMessage(task);
    });
  } finally {
    await thread.terminate();
  }
};

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

/** The program of such a thread: takes one task and answers it. */
export const answerInThread = <Task>(
  run: (task: Task, onProgress: (share: number) => void) => unknown,
): void => {
  const say = (said: Said): void => parentPort?.postMessage(said);
  const work = async (task: Task): Promise<void> => {
    try {
      const answer = await run(
        task,
        paced((share) => say({ kind: 'progress', share })),
      );
      say({ kind: 'answer', answer });
    } catch (error) {
      const told = toldError(error);
      const message = error instanceof Error ? error.message : String(error);
      const { code, details } = told ?? { code: null, details: {} };
      say({ kind: 'error', message, code, details });
    }
  };
  parentPort?.on('message', (task: Task) => void work(task));
};
