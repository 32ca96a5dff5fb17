import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

@Entity('water_reading')
@Index('water_reading_by_person', ['personId', 'takenAt'])
export class WaterReadingRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'water_reading_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Index('water_reading_by_spawn')
  @ForeignKey('SpawnRow', { name: 'water_reading_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id', nullable: true })
  spawnId: string | null;

  @Index('water_reading_by_vessel')
  @ForeignKey('VesselRow', { name: 'water_reading_vessel', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'vessel_id', nullable: true })
  vesselId: string | null;

  /** The vessel as it was written before vessels were records. */
  @Column('text', { nullable: true })
  vessel: string | null;

  @Column('timestamptz', { name: 'taken_at' })
  takenAt: Date;

  @Column('double precision', { name: 'total_ammonia', nullable: true })
  totalAmmonia: number | null;

  @Column('text', { name: 'ammonia_unit', nullable: true })
  ammoniaUnit: string | null;

  @Column('double precision', { name: 'ph', nullable: true })
  ph: number | null;

  @Column('double precision', { nullable: true })
  celsius: number | null;

  @Column('double precision', { nullable: true })
  nitrite: number | null;

  @Column('text', { name: 'nitrite_form', nullable: true })
  nitriteForm: string | null;

  @Column('double precision', { nullable: true })
  nitrate: number | null;

  @Column('text', { name: 'nitrate_form', nullable: true })
  nitrateForm: string | null;

  @Column('text', { nullable: true })
  kit: string | null;

  @Column('text', { nullable: true })
  note: string | null;
}
