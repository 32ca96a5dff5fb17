import { parentPort } from 'node:worker_threads';
import { DataSource } from 'typeorm';
import { actAs } from '../access/acting.js';
import { doorDriver } from '../access/door-pool.js';
import { RequestError } from '../errors/request-error.js';
import { paced } from '../jobs/thread.js';
import { doImport } from './do-import.js';
import { type ImportTask } from './import-task.js';
import type { ToImportWorker, FromImportWorker } from './import-messages.js';

const say = (message: FromImportWorker): void => parentPort?.postMessage(message);

let keep: () => void = () => undefined;

/** A connection of the thread's own: when the thread is ended, PostgreSQL undoes what it had begun. */
const work = (databaseUrl: string, task: ImportTask): Promise<void> =>
  actAs({ kind: 'account', ...task.keeper }, () => workFor(databaseUrl, task));

const workFor = async (databaseUrl: string, task: ImportTask): Promise<void> => {
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
    const answer = await doImport(dataSource, task, {
      onProgress: paced((share) => say({ kind: 'progress', share })),
      // Whoever holds the thread either says so or ends it.
      mayKeep: () =>
        new Promise((resolve) => {
          keep = () => resolve(true);
          say({ kind: 'ready' });
        }),
    });
    say({ kind: 'answer', answer });
  } catch (error) {
    const told = error instanceof RequestError;
    say({
      kind: 'error',
      code: told ? error.code : null,
      message: error instanceof Error ? error.message : String(error),
      details: told ? error.details : {},
    });
  } finally {
    if (dataSource.isInitialized) await dataSource.destroy();
  }
};

parentPort?.on('message', (said: ToImportWorker) => {
  if (said.kind === 'keep') keep();
  else void work(said.databaseUrl, said.task);
});
