import { chownSync, closeSync, openSync, readSync, renameSync, statSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Binaries } from './binaries.js';
import { type Answer, ask } from './connection.js';
import { unusable } from './cluster.js';
import { EmbeddedDatabaseError, diskFull } from './errors.js';
import { failureKind } from './failure-words.js';
import type { Layout } from './layout.js';
import { disownPostmasterFile, readPostmasterFile, servesFolder } from './postmaster-file.js';
import { runProgram } from './run-program.js';

/** How long a server may take to become ready, crash recovery included. */
const READY_TIMEOUT_MS = 120_000;
const LOG_LIMIT_BYTES = 5_000_000;

/**
 * Looks for a server on the folder and waits until it answers.
 *
 * @returns its port, or `undefined` when no server is there.
 * @throws EmbeddedDatabaseError `EMBEDDED_SERVER_UNRESPONSIVE`, `EMBEDDED_PASSWORD_REFUSED`
 */
export async function findServer(
  where: Layout,
  password: string,
  timeoutMs = READY_TIMEOUT_MS,
): Promise<number | undefined> {
  const deadline = performance.now() + timeoutMs;
  for (;;) {
    const file = readPostmasterFile(where.clusterDir);
    if (file === undefined) return undefined;
    if (!servesFolder(file.pid, where.clusterDir)) {
      disownPostmasterFile(where.clusterDir);
      return undefined;
    }
    const answer: Answer = file.port > 0 ? await ask(file.port, password) : 'not-yet';
    if (answer === 'ready') return file.port;
    if (answer === 'password-refused') {
      throw new EmbeddedDatabaseError(
        'EMBEDDED_PASSWORD_REFUSED',
        `The server on ${where.clusterDir} (process ${file.pid}) refuses the password in ${where.passwordFile}. ` +
          `End that server (kill -INT ${file.pid}), delete ${where.passwordFile} and start again: a new password is then set.`,
        { pid: file.pid, path: where.clusterDir },
      );
    }
    if (performance.now() > deadline) {
      throw new EmbeddedDatabaseError(
        'EMBEDDED_SERVER_UNRESPONSIVE',
        `A PostgreSQL server (process ${file.pid}) holds ${where.clusterDir} but has not answered for ` +
          `${Math.round(timeoutMs / 1000)} s. Its log is ${logFile(where)}. End it (kill -INT ${file.pid}) and start again.`,
        { pid: file.pid, path: where.clusterDir },
      );
    }
    await pause(25);
  }
}

/** Starts a server and returns its port. Call under the folder lock, when {@link findServer} found none. */
export async function startServer(
  where: Layout,
  binaries: Binaries,
  fixedPort: number | undefined,
): Promise<number> {
  const deadline = performance.now() + READY_TIMEOUT_MS;
  let busyPorts = 0;
  for (;;) {
    const port = fixedPort ?? (await freePort());
    const words = await tryStart(where, binaries, port);
    if (words === undefined) return readPostmasterFile(where.clusterDir)?.port ?? port;
    const kind = failureKind(words);
    // Free ports are asked for and then let go, so another program may take one in between.
    if (kind === 'port' && fixedPort === undefined && ++busyPorts < 5) continue;
    if (kind === 'still-in-use' && performance.now() < deadline) {
      const file = readPostmasterFile(where.clusterDir);
      if (file && !servesFolder(file.pid, where.clusterDir)) disownPostmasterFile(where.clusterDir);
      await pause(200);
      continue;
    }
    throw startFailure(where, words, port);
  }
}

/** Stops the server in order and waits for it; a server that is gone already is no failure. */
export async function stopServer(where: Layout, binaries: Binaries): Promise<void> {
  const args = ['stop', '-w', '-t', '60', '-m', 'fast', '-D', where.clusterDir];
  const result = await runProgram(binaries.pgCtl, args, where.account);
  if (result.status === 0) return;
  const file = readPostmasterFile(where.clusterDir);
  if (file === undefined || !servesFolder(file.pid, where.clusterDir)) return;
  throw new EmbeddedDatabaseError(
    'EMBEDDED_STOP_FAILED',
    `The server on ${where.clusterDir} (process ${file.pid}) did not stop. Its log is ${logFile(where)}. ` +
      'The records are safe: the next start attaches to it.',
    { pid: file.pid, output: result.output.trim() },
  );
}

/** One call of pg_ctl: `undefined` on success, otherwise everything PostgreSQL said. */
async function tryStart(
  where: Layout,
  binaries: Binaries,
  port: number,
): Promise<string | undefined> {
  const log = logFile(where);
  const before = openLog(where, log);
  const seconds = String(Math.round(READY_TIMEOUT_MS / 1000));
  const options = `-p ${port} -h 127.0.0.1`;
  const args = ['start', '-w', '-t', seconds, '-D', where.clusterDir, '-l', log, '-o', options];
  const result = await runProgram(binaries.pgCtl, args, where.account);
  if (result.failure) throw unusable(binaries.pgCtl, result.failure);
  if (result.status === 0) return undefined;
  return `${result.output}\n${readFrom(log, before)}`;
}

function startFailure(where: Layout, words: string, port: number): EmbeddedDatabaseError {
  const details = { path: where.clusterDir, port, output: words.trim().slice(-4000) };
  switch (failureKind(words)) {
    case 'disk-full':
      return diskFull(where.clusterDir);
    case 'port':
      return new EmbeddedDatabaseError(
        'EMBEDDED_PORT_UNAVAILABLE',
        `The database could not listen on 127.0.0.1 port ${port}: it is taken or not allowed. Choose another, or none to have a free one found.`,
        details,
      );
    case 'still-in-use':
      return new EmbeddedDatabaseError(
        'EMBEDDED_SERVER_UNRESPONSIVE',
        `Processes of an earlier server still hold ${where.clusterDir}. End every program named postgres that works on it and start again.`,
        details,
      );
    case 'permission':
      return new EmbeddedDatabaseError(
        'EMBEDDED_DATA_DIR_NOT_WRITABLE',
        `PostgreSQL cannot read or write its files in ${where.clusterDir}. Give the folder back to the account that made it ` +
          '(chown -R), or set DATA_DIR to another folder.',
        details,
      );
    default:
      return new EmbeddedDatabaseError(
        'EMBEDDED_START_FAILED',
        `The database in ${where.clusterDir} did not start. The last lines of ${logFile(where)}:\n` +
          words.trim().split('\n').slice(-6).join('\n'),
        details,
      );
  }
}

function logFile(where: Layout): string {
  return join(where.clusterDir, 'linewright.log');
}

/** Makes the log for the server's account, puts a long one aside, and returns its length. */
function openLog(where: Layout, log: string): number {
  if ((statSync(log, { throwIfNoEntry: false })?.size ?? 0) > LOG_LIMIT_BYTES)
    renameSync(log, `${log}.old`);
  closeSync(openSync(log, 'a', 0o600));
  if (where.account) chownSync(log, where.account.uid, where.account.gid);
  return statSync(log).size;
}

function readFrom(log: string, offset: number): string {
  const length = Math.max(0, statSync(log).size - offset);
  const buffer = Buffer.alloc(Math.min(length, 100_000));
  const file = openSync(log, 'r');
  try {
    readSync(file, buffer, 0, buffer.length, offset);
  } finally {
    closeSync(file);
  }
  return buffer.toString('utf8');
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => {
        resolve(typeof address === 'object' && address ? address.port : 0);
      });
    });
  });
}
