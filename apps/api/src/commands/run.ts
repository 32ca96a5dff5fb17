import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { DataSource } from 'typeorm';
import { actAs } from '../access/acting.js';
import type { Clock } from '../clock/clock.js';
import { machineClock } from '../clock/machine-clock.js';
import { type Config, readConfig } from '../config/config.js';
import { type OpenDatabase, openDatabase } from '../stock/open-database.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { ownerOf, CommandError } from './owner.js';

export interface CommandJob {
  readonly usage: string;
  run(
    dataSource: DataSource,
    person: SignedInPerson,
    file: string,
    options: CommandOptions,
  ): Promise<number>;
}

export interface CommandOptions {
  readonly line: string | undefined;
  readonly clock: Clock;
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
}

/** What a job without a file of its own works with. */
export interface CommandWork {
  readonly dataSource: DataSource;
  /** For what only the owner of the tables may. */
  readonly asOwner: OpenDatabase['asOwner'];
  readonly config: Config;
  readonly clock: Clock;
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
}

/** What shells expect of a program that Ctrl-C ended. */
const INTERRUPTED = 130;

/** npm runs scripts in the package's folder; a path is meant from where the person stands. */
export const fromWhereOneStands = (path: string): string =>
  resolve(process.env['INIT_CWD'] ?? process.cwd(), path);

/** Reads arguments with `read`; whatever is wrong with them is told with the usage. */
export const readWith = <Read>(usage: string, read: () => Read): Read => {
  try {
    return read();
  } catch (error) {
    throw new CommandError(
      `${error instanceof Error ? error.message : String(error)}\nUsage: ${usage}`,
    );
  }
};

/** The one file that a command is given. */
export const oneFile = (positionals: readonly string[]): string => {
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new CommandError('Give one file.');
  return fromWhereOneStands(file);
};

const readArguments = (usage: string) =>
  readWith(usage, () => {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { owner: { type: 'string' }, line: { type: 'string' } },
    });
    return { file: oneFile(positionals), ...values };
  });

const withDatabase = async (
  config: Config,
  signal: AbortSignal,
  job: (database: OpenDatabase) => Promise<number>,
): Promise<number> => {
  const database = await openDatabase(config, () => undefined, signal);
  try {
    return await job(database);
  } finally {
    await database.close();
  }
};

/**
 * Runs one command of the shell on the database; the exit code is 0 only when it was done. Ctrl-C asks it to stop and leaves
 * nothing behind. `read` looks at the arguments before the database is opened.
 */
export const runShell = async <Arguments>(
  read: () => Arguments,
  work: (given: Arguments, on: CommandWork) => Promise<number>,
): Promise<void> => {
  const controller = new AbortController();
  const { signal } = controller;
  const stop = (): void => {
    if (signal.aborted) return;
    process.stderr.write('\nStopping.\n');
    controller.abort();
  };
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
  try {
    const given = read();
    const config = readConfig(process.env);
    const clock = machineClock(config.testClockAhead);
    process.exitCode = await withDatabase(config, signal, ({ dataSource, asOwner }) =>
      work(given, { dataSource, asOwner, config, clock, signal }),
    );
  } catch (error) {
    if (error !== signal.reason)
      process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = signal.aborted ? INTERRUPTED : 1;
  } finally {
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
  }
};

/** Runs one job on a file for the owner of the records. */
export const runJob = (job: CommandJob): Promise<void> =>
  runShell(
    () => readArguments(job.usage),
    async ({ file, owner: newOwner, line }, { dataSource, config, clock, signal }) => {
      const person = await ownerOf(dataSource, config, newOwner, clock);
      return actAs({ kind: 'account', ...person }, () =>
        job.run(dataSource, person, file, { line, clock, signal }),
      );
    },
  );
