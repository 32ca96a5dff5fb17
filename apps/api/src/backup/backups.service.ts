import { createReadStream, existsSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { dayIn } from '@linewright/care';
import { Inject, Injectable, Logger, type OnModuleDestroy } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { type Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { anyFish } from '../stock/fish-rows.js';
import { InstallStateRow } from '../database/install-state.entity.js';
import { RequestError } from '../errors/request-error.js';
import { PhotoFiles } from '../photo-files/photo-files.js';
import { type BackupKind, BackupRunRow } from '../stock/rows/backup-run.entity.js';
import { beginBackup, someoneBacksUp } from './make-backup.js';
import { isBackupName } from './rotation.js';

const SHOWN = 12;

/** A backup that was made, and whether its file is still where it was put. */
export interface KeptBackup {
  readonly run: BackupRunRow;
  readonly there: boolean;
}

export interface BackupState {
  readonly folder: string;
  /** True when the folder stands on the disk of the records; `null` where that cannot be told. */
  readonly sameDisk: boolean | null;
  readonly underWay: boolean;
  /** Newest first. */
  readonly kept: readonly KeptBackup[];
  /** Backups that were made, listed or not. */
  readonly madeCount: number;
  /** The newest one that failed, when none was made after it. */
  readonly failed: BackupRunRow | null;
  readonly demo: boolean;
}

const deviceOf = async (path: string): Promise<number | null> =>
  stat(path).then(
    (found) => found.dev,
    () => null,
  );

/** Makes backups on demand and tells of those that were made. */
@Injectable()
export class BackupsService implements OnModuleDestroy {
  private readonly log = new Logger('backup');
  private readonly ending = new AbortController();
  private current: Promise<unknown> = Promise.resolve();

  constructor(
    private readonly dataSource: DataSource,
    private readonly photos: PhotoFiles,
    @Inject(CONFIG) private readonly config: Config,
    private readonly clock: Clock,
  ) {}

  async onModuleDestroy(): Promise<void> {
    this.ending.abort();
    await this.current;
  }

  async state(): Promise<BackupState> {
    const runs = this.dataSource.getRepository(BackupRunRow);
    const [busy, done, [last], install, madeCount] = await Promise.all([
      someoneBacksUp(this.dataSource),
      runs.find({ where: { state: 'done' }, order: { startedAt: 'DESC' }, take: SHOWN }),
      runs.find({ order: { startedAt: 'DESC' }, take: 1 }),
      this.dataSource.getRepository(InstallStateRow).findOneByOrFail({ id: 1 }),
      runs.countBy({ state: 'done' }),
    ]);
    const kept: KeptBackup[] = [];
    for (const run of done) {
      const path = join(run.folder, run.fileName ?? '');
      kept.push({ run, there: (await stat(path).catch(() => null)) !== null });
    }
    const failed = last !== undefined && last.state !== 'done' && !busy ? last : null;
    return {
      folder: this.config.backupDir,
      sameDisk: await this.sameDisk(),
      underWay: busy,
      kept,
      madeCount,
      failed,
      demo: install.demo,
    };
  }

  /** Backups that are still where they were put, and the folders they are in. */
  async standing(): Promise<{ paths: string[]; folders: string[] }> {
    const runs = await this.dataSource
      .getRepository(BackupRunRow)
      .find({ where: { state: 'done' }, order: { startedAt: 'DESC' } });
    const there = runs.filter(
      ({ folder, fileName }) =>
        isBackupName(fileName ?? '') && existsSync(join(folder, fileName ?? '')),
    );
    return {
      paths: there.map(({ folder, fileName }) => join(folder, fileName ?? '')),
      folders: [...new Set(there.map(({ folder }) => folder))],
    };
  }

  /** Begins one now; it goes on when this answers. */
  async begin(kind: BackupKind, stillWanted?: () => Promise<boolean>): Promise<void> {
    const begun = await beginBackup({
      dataSource: this.dataSource,
      photos: this.photos,
      kind,
      folder: this.config.backupDir,
      now: () => this.clock.now(),
      zone: kind === 'daily' ? this.clock.ownersZone() : this.clock.zone(),
      signal: this.ending.signal,
      ...(stillWanted && { stillWanted }),
    });
    if (begun === null) return;
    this.current = begun.done.catch((error: unknown) => {
      if (!this.ending.signal.aborted) this.log.error(`A backup failed: ${String(error)}`);
    });
  }

  /** The day's backup, where records of one's own are there and none was made today. */
  async daily(now: Date): Promise<void> {
    if (!(await this.dueOn(now))) return;
    try {
      await this.begin('daily', () => this.dueOn(now));
    } catch (error) {
      if (!(error instanceof RequestError && error.code === 'BACKUP_BUSY')) throw error;
    }
  }

  /** A backup's file, for a browser to take along. */
  async open(id: string): Promise<{ fileName: string; bytes: number; stream: Readable }> {
    const run = await this.dataSource.getRepository(BackupRunRow).findOneBy({ id, state: 'done' });
    const fileName = run?.fileName ?? '';
    const path = join(run?.folder ?? '', fileName);
    const found =
      run !== null && isBackupName(fileName) ? await stat(path).catch(() => null) : null;
    if (found === null)
      throw new RequestError(
        'NOT_FOUND',
        'The file of this backup is not where it was put: make a new one.',
      );
    return { fileName, bytes: found.size, stream: createReadStream(path) };
  }

  private async dueOn(now: Date): Promise<boolean> {
    const install = await this.dataSource.getRepository(InstallStateRow).findOneByOrFail({ id: 1 });
    if (install.demo || !(await anyFish(this.dataSource.manager))) return false;
    const [last] = await this.dataSource.getRepository(BackupRunRow).find({
      where: { state: 'done', folder: this.config.backupDir },
      order: { startedAt: 'DESC' },
      take: 1,
    });
    const dayOf = (at: Date): string => dayIn(at.getTime(), this.clock.ownersZone());
    if (last === undefined || dayOf(last.startedAt) !== dayOf(now)) return true;
    return (await stat(join(last.folder, last.fileName ?? '')).catch(() => null)) === null;
  }

  private async sameDisk(): Promise<boolean | null> {
    if (this.config.databaseUrl !== undefined) return null;
    const [records, backups] = await Promise.all([
      deviceOf(this.config.dataDir),
      deviceOf(this.config.backupDir),
    ]);
    return records === null || backups === null ? null : records === backups;
  }
}
