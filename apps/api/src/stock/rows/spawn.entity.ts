import { Column, Entity, ForeignKey, Index, Unique } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

@Entity('spawn')
@Unique('spawn_tag_once', ['personId', 'tag'])
@Index('spawn_by_spawned_on', ['spawnedOn', 'id'])
@Index('spawn_by_tag', ['tag', 'id'])
// Of an expression, as the list is ordered by it.
@Index('spawn_by_day', { synchronize: false })
export class SpawnRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'spawn_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column({ type: 'text', collation: 'C' })
  tag: string;

  @Index('spawn_by_line')
  @ForeignKey('LineRow', { name: 'spawn_line', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'line_id', nullable: true })
  lineId: string | null;

  @Index('spawn_by_sire')
  @ForeignKey('FishRow', { name: 'spawn_sire', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'sire_id', nullable: true })
  sireId: string | null;

  @Index('spawn_by_dam')
  @ForeignKey('FishRow', { name: 'spawn_dam', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'dam_id', nullable: true })
  damId: string | null;

  @Index('spawn_by_pairing')
  @ForeignKey('PairingRow', { name: 'spawn_pairing', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'pairing_id', nullable: true })
  pairingId: string | null;

  @Column('date', { name: 'spawned_on', nullable: true })
  spawnedOn: string | null;

  @Column('date', { name: 'hatch_date', nullable: true })
  hatchDate: string | null;

  @Column('text', { nullable: true })
  purpose: string | null;

  @Column('text', { nullable: true })
  note: string | null;

  @Column('boolean', { name: 'mixed_origin', nullable: true })
  mixedOrigin: boolean | null;

  @Column('boolean', { default: false })
  failed: boolean;

  @Column('text', { name: 'failed_reason', nullable: true })
  failedReason: string | null;
}
