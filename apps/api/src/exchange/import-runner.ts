import { Worker } from 'node:worker_threads';
import type { DataSource } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import { threadFile } from '../jobs/thread.js';
import { doImport } from './do-import.js';
import { type ImportAnswer, type ImportTask, type ImportWatcher } from './import-task.js';
import type { FromImportWorker, ToImportWorker } from './import-messages.js';

const workerFile = threadFile('import-worker.js');

type Watched = Pick<ImportWatcher, 'onProgress' | 'signal'>;

/**
 * Does a task in a thread of its own, with a connection of its own, so that the process goes on answering. When the signal
 * says so the thread is ended and nothing is saved; once all is checked and about to be kept, it is too late for that.
 */
export const runImport = async (
  dataSource: DataSource,
  task: ImportTask,
  { onProgress, signal }: Watched,
): Promise<ImportAnswer> => {
  const { url } = dataSource.options as { url?: string };
  if (workerFile === undefined || url === undefined) {
    return doImport(dataSource, task, {
      ...(onProgress !== undefined && { onProgress }),
      ...(signal !== undefined && { signal }),
    });
  }
  const thread = new Worker(workerFile);
  const tell = (message: ToImportWorker): void => thread.postMessage(message);
  let keeping = false;
  let stop = (): void => undefined;
  try {
    return await new Promise<ImportAnswer>((resolve, reject) => {
      const ended = (): void =>
        reject(
          new RequestError('JOB_CANCELLED', 'The import was stopped: nothing of it was saved.'),
        );
      stop = () => {
        if (!keeping) ended();
      };
      thread.on('error', reject);
      thread.on('exit', ended);
      thread.on('message', (said: FromImportWorker) => {
        if (said.kind === 'progress') onProgress?.(said.share);
        else if (said.kind === 'answer') resolve(said.answer);
        else if (said.kind === 'error') {
          const { code, message, details } = said;
          reject(code === null ? new Error(message) : new RequestError(code, message, details));
        } else if (signal?.aborted !== true) {
          keeping = true;
          tell({ kind: 'keep' });
        }
      });
      if (signal?.aborted === true) return stop();
      signal?.addEventListener('abort', stop);
      tell({ kind: 'task', databaseUrl: url, task });
    });
  } finally {
    signal?.removeEventListener('abort', stop);
    await thread.terminate();
  }
};
