import { randomBytes } from 'node:crypto';
import { cpSync, lstatSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { readFileSync, symlinkSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { basename, dirname, join, relative } from 'node:path';
import { type Account, canReach } from './account.js';
import { EmbeddedDatabaseError, diskFull, systemCode } from './errors.js';
import type { PlatformPackage } from './platform-package.js';
import { markIsAlive, processMark } from './process-mark.js';

/** Where PostgreSQL's programs are, ready to run. */
export interface Binaries {
  readonly initdb: string;
  readonly pgCtl: string;
  readonly postgres: string;
}

/**
 * Makes the package's binaries runnable and says where they are.
 *
 * npm packages cannot hold symbolic links, so the package lists them for its install script to make; that script does
 * not run under `--ignore-scripts`, so they are made here when missing. When they cannot be (a read-only
 * node_modules), or when the server's account cannot reach the package (a clone under root's home), a copy is made
 * once, in a folder of our own that both can reach.
 */
export function prepareBinaries(found: PlatformPackage, account: Account | null): Binaries {
  const native = join(found.folder, 'native');
  const reachable = account === null || canReach(account, join(native, 'bin'));
  if (reachable && makeLinks(found.folder)) return programs(native);
  return programs(copyOf(found, account));
}

function programs(native: string): Binaries {
  const suffix = process.platform === 'win32' ? '.exe' : '';
  const program = (name: string) => join(native, 'bin', name + suffix);
  return { initdb: program('initdb'), pgCtl: program('pg_ctl'), postgres: program('postgres') };
}

/** Makes the listed links that are missing; false when they cannot be made here. */
export function makeLinks(packageFolder: string): boolean {
  let list: { source: string; target: string }[];
  try {
    list = JSON.parse(
      readFileSync(join(packageFolder, 'native', 'pg-symlinks.json'), 'utf8'),
    ) as typeof list;
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return true;
    throw error;
  }
  for (const { source, target } of list) {
    const link = join(packageFolder, target);
    if (isThere(link)) continue;
    try {
      symlinkSync(relative(dirname(link), join(packageFolder, source)), link);
    } catch (error) {
      // EEXIST: another process made it a moment ago.
      if (systemCode(error) !== 'EEXIST') return false;
    }
  }
  return true;
}

function copyOf(found: PlatformPackage, account: Account | null): string {
  const name = `postgresql-${basename(found.folder)}-${found.version}`;
  const problems: string[] = [];
  for (const parent of cacheFolders()) {
    try {
      mkdirSync(parent, { recursive: true, mode: 0o755 });
      assertOurs(parent);
      if (account && !canReach(account, parent)) throw new Error('not reachable by the server');
      const copy = join(parent, name);
      if (!sameSizes(found.folder, copy)) makeCopy(found.folder, copy);
      return join(copy, 'native');
    } catch (error) {
      if (systemCode(error) === 'ENOSPC') throw diskFull(parent, error);
      problems.push(`${parent}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  throw new EmbeddedDatabaseError(
    'EMBEDDED_BINARIES_UNUSABLE',
    `The PostgreSQL binaries in ${found.folder} cannot be used from there and could not be copied elsewhere. ` +
      'Move the project to a folder that every account may enter, or set DATABASE_URL.',
    { problems: problems.join('; ') },
  );
}

function cacheFolders(): string[] {
  const user = process.getuid?.();
  const asked = process.env['XDG_CACHE_HOME'];
  // Root's own ~/.cache is out of the server account's reach.
  const usual = user === 0 ? '/var/cache' : join(homedir(), '.cache');
  const ours = `linewright-${user ?? 'programs'}`;
  return [
    ...(asked ? [join(asked, 'linewright')] : []),
    join(usual, 'linewright'),
    join('/var/tmp', ours),
    join(tmpdir(), ours),
  ];
}

/** Programs are run from here, so nobody else may own the folder or write to it (the parent may be /tmp). */
function assertOurs(folder: string): void {
  const { uid, mode } = lstatSync(folder);
  const mine = process.getuid === undefined || uid === process.getuid();
  const closed = process.platform === 'win32' || (mode & 0o022) === 0;
  if (!mine || !closed) throw new Error('owned or writable by another account');
}

/** Copies beside the target and renames, so that a half copy is never seen and two copiers do not mix. */
function makeCopy(source: string, target: string): void {
  clearAbandoned(target);
  const partial = `${target}.${processMark()}-${randomBytes(4).toString('hex')}`;
  try {
    cpSync(source, partial, {
      recursive: true,
      filter: (path) => !path.endsWith('.a') && !path.endsWith('pgxs'),
    });
    makeLinks(partial);
    try {
      renameSync(partial, target);
    } catch (error) {
      if (!isThere(target) || sameSizes(source, target)) {
        if (isThere(target)) return;
        throw error;
      }
      // What stands there is incomplete (a power cut after an earlier rename): put it aside, under a name of its own.
      renameSync(target, `${target}.0--${randomBytes(4).toString('hex')}`);
      renameSync(partial, target);
    }
  } finally {
    rmSync(partial, { recursive: true, force: true });
  }
}

function clearAbandoned(target: string): void {
  for (const entry of readdirSync(dirname(target))) {
    if (!entry.startsWith(`${basename(target)}.`)) continue;
    const mark = entry.slice(basename(target).length + 1);
    if (!markIsAlive(mark)) rmSync(join(dirname(target), entry), { recursive: true, force: true });
  }
}

/** Whether every program and shared library of `source` is in `copy` with the same size. */
function sameSizes(source: string, copy: string): boolean {
  if (!isThere(copy)) return false;
  for (const part of ['bin', 'lib', join('lib', 'postgresql')]) {
    const folder = join(source, 'native', part);
    if (!isThere(folder)) continue;
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      if (!entry.isFile() || entry.name.endsWith('.a')) continue;
      const twin = join(copy, 'native', part, entry.name);
      if (!isThere(twin) || statSync(twin).size !== statSync(join(folder, entry.name)).size)
        return false;
    }
  }
  return true;
}

function isThere(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false }) !== undefined;
}
