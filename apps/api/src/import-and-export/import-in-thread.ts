import type { DataSource } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import { isOutOfMemory, runInThread, threadFile } from '../jobs/thread.js';
import { stopped, doImport } from './do-import.js';
import {
  type ImportAnswer,
  type ImportInThread,
  type ImportTask,
  type ImportWatcher,
} from './import-task.js';

/** Heap of the thread, MB: a file of 100,000 fish fits, and the process stays within what a small machine has. */
const HEAP = { young: 16, old: 256 };

const tooMuch = (): RequestError =>
  new RequestError(
    'WORK_TOO_LONG',
    `Checking this file took more than ${HEAP.old} MB of memory and was stopped: nothing of it was saved. Split it into several files, ancestors first.`,
  );

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
  const given: ImportInThread = { databaseUrl: url, task };
  return runInThread<ImportAnswer>(workerFile, given, {
    stopped,
    heap: HEAP,
    ...(onProgress !== undefined && { onProgress }),
    ...(signal !== undefined && { signal }),
  }).catch((error: unknown) => {
    throw isOutOfMemory(error) ? tooMuch() : error;
  });
};
