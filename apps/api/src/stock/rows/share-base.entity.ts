import { Column, Entity, PrimaryColumn } from 'typeorm';

/**
 * What this install and a partner last agreed on for a record: the hash of its shared content at the last
 * export or import. A record that differs from it on both sides has been changed on both sides.
 */
@Entity('share_base')
export class ShareBaseRow {
  @PrimaryColumn('uuid', { name: 'record_id' })
  recordId: string;

  @Column('text', { name: 'record_kind' })
  recordKind: string;

  @Column('text', { name: 'content_hash' })
  contentHash: string;

  @Column('timestamptz', { name: 'agreed_at', default: () => 'now()' })
  agreedAt: Date;
}
