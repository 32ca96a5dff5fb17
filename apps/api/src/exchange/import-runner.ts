import type { DataSource } from 'typeorm';
import { runInThread, threadFile } from '../jobs/thread.js';
import { stopped, doImport } from './do-import.js';
import {
  type ImportAnswer,
  type ImportInThread,
  type ImportTask,
  type ImportWatcher,
} from './import-task.js';

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
    ...(onProgress !== undefined && { onProgress }),
    ...(signal !== undefined && { signal }),
  });
};
