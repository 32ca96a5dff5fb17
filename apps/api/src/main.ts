import { EmbeddedDatabaseError } from '@linewright/embedded-database';
import { ConfigError, readConfig } from './config.js';
import { serve } from './serve.js';

const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

const fail = (error: unknown): never => {
  const port = (error as { code?: string; port?: number } | null)?.code === 'EADDRINUSE';
  if (error instanceof ConfigError || error instanceof EmbeddedDatabaseError) {
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

const gone = (error: unknown): void => {
  process.stderr.write(
    'The database server is gone and cannot be started again: Linewright ends here. What was recorded is kept; mend the cause and start it again.\n',
  );
  fail(error);
};

const run = async (): Promise<void> => {
  const started = performance.now();
  const served = await serve(readConfig(process.env), say, gone);
  say(
    `Linewright is at ${served.url} (ready in ${((performance.now() - started) / 1000).toFixed(1)} s; Ctrl-C stops it)`,
  );
  let stopping = false;
  const stop = (): void => {
    if (stopping) return;
    stopping = true;
    say('Stopping.');
    served.close().then(() => process.exit(0), fail);
  };
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
};

run().catch(fail);
