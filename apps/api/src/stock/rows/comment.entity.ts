import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

/** What somebody who may look at a fish or a spawn said of it. */
@Entity('comment')
@Check('comment_of_one', '(fish_id IS NULL) <> (spawn_id IS NULL)')
export class CommentRow extends RecordRow {
  @Index('comment_by_fish')
  @ForeignKey('FishRow', { name: 'comment_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id', nullable: true })
  fishId: string | null;

  @Index('comment_by_spawn')
  @ForeignKey('SpawnRow', { name: 'comment_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id', nullable: true })
  spawnId: string | null;

  /** Whose words they are, by account. */
  @ForeignKey('PersonRow', { name: 'comment_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id', default: () => 'door_account()' })
  personId: string;

  @Column('text')
  words: string;
}
