import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

@Entity('pairing')
export class PairingRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'pairing_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Index('pairing_by_sire')
  @ForeignKey('FishRow', { name: 'pairing_sire', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'sire_id' })
  sireId: string;

  @Index('pairing_by_dam')
  @ForeignKey('FishRow', { name: 'pairing_dam', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'dam_id' })
  damId: string;

  @Column('text', { default: 'planned' })
  state: 'planned' | 'spawned' | 'dropped';

  @Column('date', { name: 'planned_on' })
  plannedOn: string;

  @Column('text', { nullable: true })
  reason: string | null;

  @Column('text', { nullable: true })
  note: string | null;

  /** Account of whoever makes it; null while nobody said so. */
  @ForeignKey('PersonRow', { name: 'pairing_maker', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'maker_id', nullable: true })
  makerId: string | null;
}
