import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

/** A picture of something on record. The picture itself is a file named by `sha256`; this row comes after it. */
@Entity('photo')
export class PhotoRow extends RecordRow {
  /** What it shows: `fish`, `spawn`, `spawn_event` or `sheet_scoring`, and the id of that record. */
  @Column('text', { name: 'subject_kind' })
  subjectKind: string;

  @Column('uuid', { name: 'subject_id' })
  subjectId: string;

  /** Who added it; written by the database. */
  @Column('uuid', {
    name: 'by_account_id',
    nullable: true,
    default: () => 'door_account()',
    ...{ select: false, insert: false, update: false },
  })
  byAccountId: string | null;

  /** The fish on whose page it stands: the subject itself, or the fish that was scored. */
  @Index('photo_by_fish')
  @ForeignKey('FishRow', { name: 'photo_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id', nullable: true })
  fishId: string | null;

  /** The spawn on whose page it stands: the subject itself, or the event's. */
  @Index('photo_by_spawn')
  @ForeignKey('SpawnRow', { name: 'photo_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id', nullable: true })
  spawnId: string | null;

  @Column('date', { name: 'taken_on', nullable: true })
  takenOn: string | null;

  @Column('text', { nullable: true })
  caption: string | null;

  @Column('text', { name: 'media_type' })
  mediaType: string;

  @Column('integer')
  bytes: number;

  @Column('integer')
  width: number;

  @Column('integer')
  height: number;

  /** SHA-256 of the stored file, in hexadecimal. */
  @Index('photo_by_file')
  @Column({ type: 'text', collation: 'C' })
  sha256: string;
}
