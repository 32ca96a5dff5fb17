import { EmbeddedDatabaseError } from '@linewright/embedded-database';
import { ConfigError, readConfig } from './config/config.js';
import { DatabaseVersionError } from './database/schema-version.js';
import { serve } from './serve.js';

const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

const fail = (error: unknown): never => {
  const port = (error as { code?: string; port?: number } | null)?.code === 'EADDRINUSE';
  if (
    error instanceof ConfigError ||
    error instanceof EmbeddedDatabaseError ||
    error instanceof DatabaseVersionError
  ) {
    process.stderr.write(`${error.message}\n`);
  } else if (port) {
    process.stderr.write(
      `The port ${process.env['PORT'] ?? '4700'} is in use: set PORT to another, or 0 for any free one.\n`,
    );
  } else {
    process.stderr.write(
      `${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
  }
  process.exit(1);
};

/** Ctrl-C, a service manager, and a terminal that is closed. */
const ENDS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

const ending = new AbortController();
let broken: unknown = null;

// Before anything is started, so that there is no moment in which a signal leaves the database behind.
const stop = (): void => {
  if (ending.signal.aborted) return;
  say('Stopping.');
  ending.abort();
};
for (const signal of ENDS) process.on(signal, stop);
/** The database server is gone for good. */
const gone = (error: unknown): void => {
  process.stderr.write(
    'The database server is gone and cannot be started again: Linewright ends here. What was recorded is kept; remove the cause, then start it again.\n',
  );
  broken ??= error;
  stop();
};
process.on('uncaughtException', (error) => {
  broken ??= error;
  stop();
});

const run = async (): Promise<void> => {
  const started = performance.now();
  const served = await serve(readConfig(process.env), say, ending.signal, gone);
  if (!ending.signal.aborted) {
    say(
      `Linewright is at ${served.url} (ready in ${((performance.now() - started) / 1000).toFixed(1)} s; Ctrl-C stops it)`,
    );
    await new Promise<void>((resolve) => {
      ending.signal.addEventListener('abort', () => resolve(), { once: true });
    });
  }
  await served.close();
};

run().then(
  () => {
    if (broken !== null) fail(broken);
    process.exit(0);
  },
  (error: unknown) => {
    if (error === ending.signal.reason && broken === null) process.exit(0);
    fail(broken ?? error);
  },
);
