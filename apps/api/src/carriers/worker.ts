import { parentPort } from 'node:worker_threads';
import { HeredityError } from '@linewright/heredity';
import { paced } from '../jobs/thread.js';
import { PreparedModels } from './prepared-models.js';
import { runTask } from './task.js';
import { type CarrierTask } from './carrier-task.js';

/** What the thread is asked. */
export interface ToWorker {
  readonly task: CarrierTask;
  readonly onlyPrepared: boolean;
}

/** What the thread says: how far it is, then the answer or the error. */
export type FromWorker =
  | { readonly kind: 'progress'; readonly share: number }
  /** Null: nothing is kept ready to answer it from. */
  | { readonly kind: 'answer'; readonly answer: unknown }
  | { readonly kind: 'error'; readonly code: string | null; readonly message: string };

/** Loci; a model of ten thousand fish takes some 25 MB. */
const MOST_PREPARED = 6;
const prepared = new PreparedModels(MOST_PREPARED);

/** The thread in which carrier probabilities are worked out, one task after another. */
parentPort?.on('message', ({ task, onlyPrepared }: ToWorker) => {
  const say = (message: FromWorker): void => parentPort?.postMessage(message);
  const tell = paced((share) => say({ kind: 'progress', share }));
  let highest = 0;
  try {
    const onProgress = (done: number, total: number): void => {
      // Building and reading out each count from nothing: the share never goes back.
      highest = Math.max(highest, total > 0 ? done / total : 0);
      tell(highest);
    };
    const answer = runTask(task, prepared, { onlyPrepared, onProgress });
    say({ kind: 'answer', answer });
  } catch (error) {
    const code = error instanceof HeredityError ? error.code : null;
    say({ kind: 'error', code, message: error instanceof Error ? error.message : String(error) });
  }
});
