import { Column, Entity, Index, PrimaryColumn } from 'typeorm';

/** By itself each day, asked for on the screen, or from the shell. */
export type BackupKind = 'daily' | 'asked' | 'shell';

/** One making of a backup: under way, done and checked, or failed. */
@Entity('backup_run')
export class BackupRunRow {
  @PrimaryColumn('uuid')
  id: string;

  @Column('text')
  kind: BackupKind;

  /** `running`, `done` or `failed`. */
  @Column('text', { default: 'running' })
  state: string;

  /** Where it is written. */
  @Column('text')
  folder: string;

  @Column('text', { name: 'file_name', nullable: true })
  fileName: string | null;

  @Column('bigint', { nullable: true })
  bytes: string | null;

  /** Pictures that a record speaks of and whose file was not there. */
  @Column('integer', { name: 'photos_missing', default: 0 })
  photosMissing: number;

  /** Why it failed. */
  @Column('text', { nullable: true })
  message: string | null;

  @Index('backup_run_by_start')
  @Column('timestamptz', { name: 'started_at', default: () => 'now()' })
  startedAt: Date;

  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;
}
