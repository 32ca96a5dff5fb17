import { randomUUID } from 'node:crypto';
import { readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { DAY, dayIn } from '@linewright/care';
import type { DataSource, QueryRunner } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { RequestError } from '../errors/request-error.js';
import { type BackupKind, BackupRunRow } from '../stock/rows/backup-run.entity.js';
import { backupName, outdated } from './rotation.js';
import { type BackupSource, type WrittenBackup, writeBackup } from './write-backup.js';

/** Arbitrary but fixed: of the processes on one database one makes a backup at a time. */
const BACKUP_LOCK = 7_040_029;
/** Rows that tell of backups of before. */
const TOLD_DAYS = 400;

export interface BackupOrder extends BackupSource {
  readonly kind: BackupKind;
  readonly folder: string;
  readonly now: () => Date;
  /** Time zone whose day and time its file is named by. */
  readonly zone: string;
  readonly signal: AbortSignal;
  /** Asked once no other process can begin: false leaves it. */
  readonly stillWanted?: () => Promise<boolean>;
}

/** A backup that has begun, and its end. */
export interface BackupUnderWay {
  readonly run: BackupRunRow;
  readonly done: Promise<WrittenBackup>;
}

const tookLock = async (runner: QueryRunner): Promise<boolean> => {
  const [row] = (await runner.query('SELECT pg_try_advisory_lock($1) AS taken', [BACKUP_LOCK])) as {
    taken: boolean;
  }[];
  return row?.taken === true;
};

/** True while some process makes a backup. */
export const someoneBacksUp = async (dataSource: DataSource): Promise<boolean> => {
  const [row] = (await dataSource.query(
    `SELECT EXISTS (SELECT 1 FROM pg_locks WHERE locktype = 'advisory' AND classid = 0 AND objid = $1::bigint::oid AND granted
       AND database = (SELECT oid FROM pg_database WHERE datname = current_database())) AS held`,
    [BACKUP_LOCK],
  )) as { held: boolean }[];
  return row?.held === true;
};

/** What a person is told of a backup that failed: what happened, and what to do. */
const failureOf = (error: unknown, folder: string): string => {
  if (error instanceof RequestError) return error.message;
  const { code, message } = error as NodeJS.ErrnoException;
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return `The disk that holds ${folder} is full: free some space, or set BACKUP_DIR to a folder on a larger disk.`;
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
    case 'ENOTDIR':
    case 'EEXIST':
    case 'ENOENT':
      return `The folder ${folder} cannot be written (${code}): give this account the right to, or set BACKUP_DIR to another folder.`;
    default:
      return `It stopped with: ${message}`;
  }
};

/** Drafts a day old, of processes that were killed, and daily backups that have had their time. */
const tidyFolder = async (folder: string, now: Date): Promise<void> => {
  const names = await readdir(folder);
  for (const name of outdated(names)) await rm(join(folder, name), { force: true });
  for (const name of names.filter((other) => other.startsWith('.unfinished-'))) {
    const found = await stat(join(folder, name)).catch(() => null);
    if (found !== null && now.getTime() - found.mtimeMs > DAY)
      await rm(join(folder, name), { force: true });
  }
};

const write = async (order: BackupOrder, id: string, at: Date): Promise<WrittenBackup> => {
  const { dataSource, folder, kind, signal } = order;
  const runs = dataSource.getRepository(BackupRunRow);
  try {
    const time = at.toLocaleTimeString('sv-SE', { timeZone: order.zone });
    const fileName = backupName(dayIn(at.getTime(), order.zone), time, kind === 'daily');
    const written = await writeBackup(order, join(folder, fileName), at, signal);
    await runs.update(id, {
      state: 'done',
      fileName,
      bytes: String(written.bytes),
      photosMissing: written.manifest.photosAmiss.length,
      endedAt: order.now(),
    });
    if (kind === 'daily') await tidyFolder(folder, at);
    return written;
  } catch (error) {
    const message = signal.aborted ? 'It was stopped before its end.' : failureOf(error, folder);
    await runs.update(id, { state: 'failed', message, endedAt: order.now() });
    throw signal.aborted ? error : new RequestError('BACKUP_FAILED', message);
  }
};

/**
 * Begins a backup, unless some process on this database is at one; `null` when it turns out that it is no longer wanted.
 *
 * @throws RequestError `BACKUP_BUSY`; its `done` fails with `BACKUP_FAILED`.
 */
export const beginBackup = async (order: BackupOrder): Promise<BackupUnderWay | null> => {
  const { dataSource, kind, folder } = order;
  const runner = dataSource.createQueryRunner();
  const letGo = async (): Promise<void> => {
    await runner.query('SELECT pg_advisory_unlock($1)', [BACKUP_LOCK]).catch(() => undefined);
    await runner.release();
  };
  if (!(await tookLock(runner))) {
    await runner.release();
    throw new RequestError(
      'BACKUP_BUSY',
      'A backup is being made already: wait until it has ended, and try again.',
    );
  }
  try {
    if (order.stillWanted !== undefined && !(await order.stillWanted())) {
      await letGo();
      return null;
    }
    const runs = dataSource.getRepository(BackupRunRow);
    // Whoever was at one is gone, or the lock would be held.
    await runs.update(
      { state: 'running' },
      { state: 'failed', message: 'The program was ended before it was done.' },
    );
    const at = order.now();
    await dataSource.query('DELETE FROM backup_run WHERE started_at < $1', [
      new Date(at.getTime() - TOLD_DAYS * DAY),
    ]);
    const id = randomUUID();
    await runs.insert({ id, kind, folder, startedAt: at });
    const run = await runs.findOneByOrFail({ id });
    // Whoever asked for it may have left by then, and it holds what they may not see.
    const done = asSystem('backup', async () => {
      try {
        return await write(order, id, at);
      } finally {
        await letGo();
      }
    });
    done.catch(() => undefined);
    return { run, done };
  } catch (error) {
    await letGo();
    throw error;
  }
};
