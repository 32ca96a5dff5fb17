import type { Packed } from '@linewright/merging';
import { Column, Entity, Index, PrimaryColumn } from 'typeorm';

/** One row (id 1): this install among those that hold one line. */
@Entity('share_state')
export class ShareStateRow {
  @PrimaryColumn('integer')
  id: number;

  /** Follows from the keys, which are made when they are first needed; never carried to another place by a backup, where its counts would be given out twice. */
  @Column('uuid', { name: 'install_id', nullable: true })
  installId: string | null;

  /** With it the install signs what it gives: PKCS #8 of an Ed25519 key, base64. */
  @Column('text', { name: 'signing_secret', nullable: true })
  signingSecret: string | null;

  /** With it the install opens what was sealed for it, as the age format writes it. */
  @Column('text', { name: 'reading_secret', nullable: true })
  readingSecret: string | null;

  /** Sets of changes that were stamped here. */
  @Column('bigint', { name: 'changes', default: 0 })
  changes: string;

  /** How often versions of records were written: while it stays, a file of a line would tell the same of them. */
  @Column('bigint', { default: 0 })
  stampings: string;
}

/** An install that a line was exchanged with, or that was told of by one. */
@Entity('share_install')
export class ShareInstallRow {
  @PrimaryColumn('uuid', { name: 'install_id' })
  installId: string;

  /** Whose it is, as a partner told. */
  @Column('text')
  name: string;
}

/** A record of somebody whose data were erased: no file brings back what it said. Of an install that was theirs, its id. */
@Entity('erased_record')
export class ErasedRecordRow {
  @PrimaryColumn('uuid', { name: 'record_id' })
  recordId: string;

  @Column('timestamptz', { name: 'erased_at', default: () => 'now()' })
  erasedAt: Date;
}

/** What is known of the versions of a record that went out or came in with a line. */
@Entity('record_stamp')
@Index('record_stamp_apart', ['id'], { where: "apart <> '{}'" })
export class RecordStampRow {
  /** The record's. */
  @PrimaryColumn('uuid', { name: 'record_id' })
  id: string;

  @Column('text', { name: 'record_kind' })
  recordKind: string;

  /** Versions beside what is shown. */
  @Column('jsonb')
  versions: Packed;

  /** The record as it was when that was written: what differs from it now was changed here since. */
  @Column('jsonb')
  seen: Record<string, unknown>;

  /** Parts that say different things in different places. */
  @Column('text', { array: true, default: () => "'{}'" })
  apart: string[];
}
