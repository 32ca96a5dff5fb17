import { randomBytes } from 'node:crypto';
import {
  chmodSync,
  chownSync,
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import type { Account } from './account.js';
import type { Binaries } from './binaries.js';
import { EmbeddedDatabaseError, diskFull, systemCode } from './errors.js';
import { failureKind } from './failure-words.js';
import { type Layout, recordLocation } from './layout.js';
import { type ProgramResult, runProgram } from './run-program.js';

/** Superuser of the embedded cluster, and name of its database. */
export const DATABASE_NAME = 'linewright';

/** Settings of ours, rewritten at each start so that a new release can change them. */
const SETTINGS = `# Written by Linewright at each start. Put settings of your own into postgresql.conf, below the include.
listen_addresses = '127.0.0.1'
unix_socket_directories = ''
timezone = 'UTC'
log_timezone = 'UTC'
log_checkpoints = off
max_connections = 60
max_wal_size = '256MB'
`;

/** Makes the cluster when there is none, and checks the one that is there. Call under the folder lock. */
export async function readyCluster(
  where: Layout,
  binaries: Binaries,
  major: number,
  log: (line: string) => void,
): Promise<void> {
  if (!holdsAnything(where.clusterDir)) {
    log(`Making an empty database in ${where.clusterDir}`);
    await makeCluster(where, binaries);
  }
  checkVersion(where.clusterDir, major);
  takeOver(where.clusterDir, where.account);
  recordLocation(where);
  writeSettings(where);
}

/** Runs initdb beside the final place and renames, so that a start killed half-way leaves no half cluster. */
async function makeCluster(where: Layout, binaries: Binaries): Promise<void> {
  clearAbandoned(where.home);
  rmSync(where.clusterDir, { recursive: true, force: true });
  // A name of its own: the initdb of a killed start may still be writing into the folder it was given.
  const partial = join(where.home, `cluster-partial-${randomBytes(4).toString('hex')}`);
  const passwordCopy = `${partial}-password`;
  try {
    mkdirSync(partial, { mode: 0o700 });
    writeFileSync(passwordCopy, readPassword(where) ?? writePassword(where), { mode: 0o600 });
    if (where.account) {
      chownSync(partial, where.account.uid, where.account.gid);
      chownSync(passwordCopy, where.account.uid, where.account.gid);
    }
    const result = await runProgram(
      binaries.initdb,
      initdbOptions(partial, passwordCopy),
      where.account,
    );
    if (result.status !== 0) throw initdbFailed(where, binaries, result);
    const config = join(partial, 'postgresql.conf');
    writeFileSync(config, "\ninclude_if_exists = 'linewright.conf'\n", { flag: 'a' });
    renameSync(partial, where.clusterDir);
    syncFolder(where.home);
  } finally {
    rmSync(passwordCopy, { force: true });
    rmSync(partial, { recursive: true, force: true });
  }
}

function clearAbandoned(home: string): void {
  for (const entry of readdirSync(home)) {
    if (entry.startsWith('cluster-partial-'))
      rmSync(join(home, entry), { recursive: true, force: true, maxRetries: 5 });
  }
}

function initdbOptions(folder: string, passwordFile: string): string[] {
  return [
    `--pgdata=${folder}`,
    `--username=${DATABASE_NAME}`,
    `--pwfile=${passwordFile}`,
    '--auth=scram-sha-256',
    '--data-checksums',
    '--encoding=UTF8',
    '--locale=C',
    '--locale-provider=builtin',
    '--builtin-locale=C.UTF-8',
    '--no-instructions',
  ];
}

function initdbFailed(
  where: Layout,
  binaries: Binaries,
  result: ProgramResult,
): EmbeddedDatabaseError {
  if (failureKind(result.output) === 'disk-full') return diskFull(where.clusterDir);
  if (result.failure) return unusable(binaries.initdb, result.failure);
  const words = result.output.trim();
  return new EmbeddedDatabaseError(
    'EMBEDDED_START_FAILED',
    `PostgreSQL could not make a database in ${where.clusterDir}. Its last words: ${lastLine(words)}`,
    { output: words, path: where.clusterDir },
  );
}

/** A program that does not start although it is there. */
export function unusable(program: string, cause: Error): EmbeddedDatabaseError {
  // The system answers ENOENT for a present program when its loader is missing: binaries made for another C library.
  const otherLibrary = systemCode(cause) === 'ENOENT' && existsSync(program);
  return new EmbeddedDatabaseError(
    'EMBEDDED_BINARIES_UNUSABLE',
    `The PostgreSQL program ${program} does not run here (${cause.message}). ` +
      (otherLibrary ? 'It needs a Linux with glibc. ' : '') +
      'Run `npm ci` again, or set DATABASE_URL to a PostgreSQL server, version 15 or later.',
    { program },
    { cause },
  );
}

function checkVersion(clusterDir: string, major: number): void {
  let version: string;
  try {
    version = readFileSync(join(clusterDir, 'PG_VERSION'), 'utf8').trim();
  } catch (error) {
    if (systemCode(error) !== 'ENOENT') throw error;
    throw new EmbeddedDatabaseError(
      'EMBEDDED_DATA_DAMAGED',
      `${clusterDir} is not empty, but it is not a whole PostgreSQL data folder (PG_VERSION is missing). ` +
        'Nothing was changed. Put the whole folder back from a backup, or set DATA_DIR to another folder.',
      { path: clusterDir },
    );
  }
  if (version === String(major)) return;
  throw new EmbeddedDatabaseError(
    'EMBEDDED_DATA_VERSION',
    `The records in ${clusterDir} were written by PostgreSQL ${version}; this release brings PostgreSQL ${major} and ` +
      'cannot open them. Nothing was changed. Start the release that wrote them, export from it, and import the file here; ' +
      `or run a PostgreSQL ${version} server on that folder and set DATABASE_URL.`,
    { path: clusterDir, found: version, expected: major },
  );
}

/** PostgreSQL wants to own its folder alone: puts right what a copy made by root (a restored backup) left. */
function takeOver(clusterDir: string, account: Account | null): void {
  const { uid, mode } = statSync(clusterDir);
  if (process.getuid === undefined) return;
  const owner = account?.uid ?? process.getuid();
  if (uid !== owner) {
    if (account === null) {
      throw new EmbeddedDatabaseError(
        'EMBEDDED_DATA_DIR_NOT_WRITABLE',
        `${clusterDir} belongs to another account (uid ${uid}). Start as that account, ` +
          `give the folder to this one (chown -R ${owner} ${clusterDir}), or set DATA_DIR to another folder.`,
        { path: clusterDir, owner: uid },
      );
    }
    chownAll(clusterDir, account);
  }
  if ((mode & 0o077) !== 0) chmodSync(clusterDir, 0o700);
}

function chownAll(path: string, account: Account): void {
  chownSync(path, account.uid, account.gid);
  for (const entry of readdirSync(path, { withFileTypes: true })) {
    const inner = join(path, entry.name);
    if (entry.isDirectory()) chownAll(inner, account);
    else if (entry.isFile()) chownSync(inner, account.uid, account.gid);
  }
}

function writeSettings(where: Layout): void {
  const file = join(where.clusterDir, 'linewright.conf');
  if (existsSync(file) && readFileSync(file, 'utf8') === SETTINGS) return;
  writeFileSync(file, SETTINGS, { mode: 0o600 });
  if (where.account) chownSync(file, where.account.uid, where.account.gid);
}

/** The superuser's password, or `undefined` when none is stored. */
export function readPassword(where: Layout): string | undefined {
  try {
    return readFileSync(where.passwordFile, 'utf8').trim();
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return undefined;
    throw error;
  }
}

/** Makes and stores a new random password, readable by its owner alone. */
export function writePassword(where: Layout): string {
  const password = randomBytes(24).toString('base64url');
  const partial = `${where.passwordFile}.partial`;
  const file = openSync(partial, 'w', 0o600);
  try {
    writeFileSync(file, `${password}\n`);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  renameSync(partial, where.passwordFile);
  syncFolder(dirname(where.passwordFile));
  return password;
}

function syncFolder(folder: string): void {
  // Windows cannot open a folder.
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function holdsAnything(folder: string): boolean {
  return existsSync(folder) && readdirSync(folder).length > 0;
}

function lastLine(words: string): string {
  return words.split('\n').at(-1) ?? '';
}
