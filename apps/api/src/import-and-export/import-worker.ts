import { DataSource } from 'typeorm';
import { actAs } from '../access/acting.js';
import { doorDriver } from '../access/door-pool.js';
import { toldError } from '../errors/told-error.js';
import { answerInThread, type ThreadWork } from '../jobs/thread.js';
import { doImport } from './do-import.js';
import type { ImportAnswer, ImportInThread } from './import-task.js';

/** A connection of the thread's own: when the thread is ended, PostgreSQL undoes what it had begun. */
const work = async (
  { databaseUrl, task }: ImportInThread,
  watcher: ThreadWork,
): Promise<ImportAnswer> => {
  const dataSource = new DataSource({
    type: 'postgres',
    driver: doorDriver,
    url: databaseUrl,
    installExtensions: false,
    applicationName: 'linewright import',
    extra: { max: 1 },
  });
  try {
    await dataSource.initialize();
    return await doImport(dataSource, task, watcher);
  } finally {
    if (dataSource.isInitialized) await dataSource.destroy();
  }
};

// The thread in which a file is taken in, for whoever sent it.
answerInThread<ImportInThread>(
  (given, watcher) => actAs({ kind: 'account', ...given.task.account }, () => work(given, watcher)),
  toldError,
);
