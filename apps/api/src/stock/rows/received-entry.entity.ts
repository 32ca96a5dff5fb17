import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import type { EntryKind } from '../../database/entry-kind.js';

/** What one entry did to one record: enough to undo exactly that. */
export interface EntryChange {
  readonly kind: string;
  readonly id: string;
  readonly revision: number;
}

/** An entry made on a person's device that has arrived: written in the transaction that applied it. */
@Entity('received_entry')
@Index('received_entry_by_person', ['personId', 'at'])
export class ReceivedEntryRow {
  @PrimaryColumn('uuid')
  id: string;

  @ForeignKey('PersonRow', { name: 'received_entry_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column('text')
  kind: EntryKind;

  @Column('timestamptz', { default: () => 'now()' })
  at: Date;

  /** The records it speaks of, also those that it left as they were. */
  @Column('uuid', { name: 'record_ids', array: true, default: () => "'{}'" })
  recordIds: string[];

  @Column('jsonb', { default: () => "'[]'" })
  changes: EntryChange[];

  /** The later entry that took this one back. */
  @Column('uuid', { name: 'undone_by', nullable: true })
  undoneBy: string | null;
}
