import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { DataSource } from 'typeorm';
import type { Clock } from '../clock/clock.js';
import { machineClock } from '../clock/machine-clock.js';
import { type Config, readConfig } from '../config.js';
import { openDatabase } from '../database/open-database.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { ownerOf, ShellError } from './owner.js';

export interface ShellJob {
  readonly usage: string;
  run(
    dataSource: DataSource,
    keeper: SignedInKeeper,
    file: string,
    options: ShellOptions,
  ): Promise<number>;
}

export interface ShellOptions {
  readonly line: string | undefined;
  readonly clock: Clock;
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
}

/** What shells expect of a program that Ctrl-C ended. */
const INTERRUPTED = 130;

const readArguments = (usage: string) => {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { keeper: { type: 'string' }, line: { type: 'string' } },
    });
    const [file, ...more] = positionals;
    if (file === undefined || more.length > 0) throw new ShellError('Give one file.');
    // npm runs scripts in the package's folder; the file is meant from where the person stands.
    return { file: resolve(process.env['INIT_CWD'] ?? process.cwd(), file), ...values };
  } catch (error) {
    throw new ShellError(
      `${error instanceof Error ? error.message : String(error)}\nUsage: ${usage}`,
    );
  }
};

const withDatabase = async (
  config: Config,
  job: (dataSource: DataSource) => Promise<number>,
): Promise<number> => {
  const { dataSource, close } = await openDatabase(config);
  try {
    return await job(dataSource);
  } finally {
    await close();
  }
};

/** Runs one job from the shell; the exit code is 0 only when it was done. Ctrl-C asks it to stop and leaves nothing behind. */
export const runJob = async (job: ShellJob): Promise<void> => {
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
    const { file, keeper: newKeeper, line } = readArguments(job.usage);
    const config = readConfig(process.env);
    const clock = machineClock(config.testClockAhead);
    process.exitCode = await withDatabase(config, async (dataSource) => {
      const keeper = await ownerOf(dataSource, config, newKeeper, clock);
      return job.run(dataSource, keeper, file, { line, clock, signal });
    });
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = signal.aborted ? INTERRUPTED : 1;
  } finally {
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
  }
};
