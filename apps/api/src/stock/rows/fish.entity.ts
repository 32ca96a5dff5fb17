import { Column, Entity, ForeignKey, Index, Unique } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

export type FishSex = 'male' | 'female' | 'unsexed' | 'uncertain';
export type FishDisposition =
  | 'unsorted'
  | 'keeper'
  | 'hold'
  | 'culled'
  | 'placed'
  | 'died'
  | 'elsewhere';

@Entity('fish')
@Unique('fish_tag_once', ['personId', 'tag'])
@Index('fish_by_tag', ['tag', 'id'])
@Index('fish_by_hatch_date', ['hatchDate', 'id'])
// Of expressions, as the list is ordered by them.
@Index('fish_newest_first', { synchronize: false })
@Index('fish_oldest_first', { synchronize: false })
@Index('fish_by_created_at', ['createdAt', 'id'])
export class FishRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'fish_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column({ type: 'text', collation: 'C' })
  tag: string;

  @Column('text', { nullable: true })
  name: string | null;

  @Column('text')
  sex: FishSex;

  @Column('date', { name: 'hatch_date', nullable: true })
  hatchDate: string | null;

  @Index('fish_by_line')
  @ForeignKey('LineRow', { name: 'fish_line', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'line_id', nullable: true })
  lineId: string | null;

  @Index('fish_by_spawn')
  @ForeignKey('SpawnRow', { name: 'fish_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id', nullable: true })
  spawnId: string | null;

  @Column('text', { nullable: true })
  origin: string | null;

  @Column('boolean', { name: 'declared_unrelated', nullable: true })
  declaredUnrelated: boolean | null;

  @Column('text', { nullable: true })
  note: string | null;

  /** The keeper in whose tanks it swims; null when that is not known. Whose record it is stands in `personId`. */
  @Index('fish_by_place')
  @ForeignKey('PersonRow', { name: 'fish_swims_with', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'swims_with_id', nullable: true })
  swimsWithId: string | null;

  @Index('fish_by_disposition')
  @Column('text', { default: 'unsorted' })
  disposition: FishDisposition;

  @Column('date', { name: 'disposition_date', nullable: true })
  dispositionDate: string | null;

  @Column('text', { name: 'disposition_reason', nullable: true })
  dispositionReason: string | null;
}
