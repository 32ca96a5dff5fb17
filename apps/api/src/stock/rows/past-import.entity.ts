import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import type { RecordKind } from '../../database/record-kind.js';

/** How many records of each kind an import made. */
export interface PastImportCounts {
  readonly fish: number;
  readonly spawns: number;
  readonly lines: number;
  readonly scores: number;
  readonly traits: number;
}

/** A pedigree file that was taken in, and whether that was taken back. */
@Entity('past_import')
@Index('past_import_by_person', ['personId', 'at'])
export class PastImportRow {
  @PrimaryColumn('uuid')
  id: string;

  @ForeignKey('PersonRow', { name: 'past_import_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  /** Null for files taken in before their names were noted. */
  @Column('text', { name: 'file_name', nullable: true })
  fileName: string | null;

  @Column('text', { name: 'by_name' })
  byName: string;

  /** The account that took it in. */
  @Column('uuid', { name: 'by_account_id', nullable: true, default: () => 'door_account()' })
  byAccountId: string | null;

  @Column('timestamptz')
  at: Date;

  @Column('jsonb')
  counts: PastImportCounts;

  @Column('timestamptz', { name: 'taken_back_at', nullable: true })
  takenBackAt: Date | null;

  @Column('text', { name: 'taken_back_by', nullable: true })
  takenBackBy: string | null;

  @Column('uuid', { name: 'taken_back_by_account_id', nullable: true })
  takenBackByAccountId: string | null;

  @Column('text', { name: 'taken_back_reason', nullable: true })
  takenBackReason: string | null;
}

/** A record that an import made. */
@Entity('past_import_record')
export class PastImportRecordRow {
  @ForeignKey('PastImportRow', { name: 'past_import_record_of', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'past_import_id' })
  pastImportId: string;

  @PrimaryColumn('uuid', { name: 'record_id' })
  recordId: string;

  @Column('text', { name: 'record_kind' })
  recordKind: RecordKind;
}
