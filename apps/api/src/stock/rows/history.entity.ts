import { Column, Entity, Index, PrimaryGeneratedColumn } from 'typeorm';

/** One line of a record's history: written in the same transaction as the change it tells of. */
@Entity('record_history')
@Index('record_history_by_record', ['recordId', 'sequence'])
@Index('record_history_by_act', ['actId'], { where: 'act_id IS NOT NULL' })
export class HistoryRow {
  @PrimaryGeneratedColumn('identity', { type: 'bigint', generatedIdentity: 'ALWAYS' })
  sequence: string;

  @Column('text', { name: 'record_kind' })
  recordKind: string;

  @Column('uuid', { name: 'record_id' })
  recordId: string;

  @Column('integer')
  revision: number;

  @Column('timestamptz', { default: () => 'now()' })
  at: Date;

  @Column('text', { name: 'by_name' })
  byName: string;

  @Column('text')
  action: string;

  @Column('jsonb')
  changes: Record<string, { before: unknown; after: unknown }>;

  /** The act for several records that the change is part of; its taking back is part of it too. */
  @Column('uuid', { name: 'act_id', nullable: true })
  actId: string | null;
}
