import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

export type VesselKind = 'jar' | 'tank' | 'tub' | 'cone' | 'other';
/** Why several are together. */
export type VesselCompany = 'sorority' | 'pair' | 'grow_out';

/** A jar, tank or tub, and where it stands. */
@Entity('vessel')
@Check('vessel_kind', `kind IN ('jar', 'tank', 'tub', 'cone', 'other')`)
// Of the code without case and spaces.
@Index('vessel_by_code', { synchronize: false })
export class VesselRow extends RecordRow {
  /** Whose house it stands in. */
  @ForeignKey('PersonRow', { name: 'vessel_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column('text')
  code: string;

  @Column('text')
  kind: VesselKind;

  @Column('double precision', { nullable: true })
  litres: number | null;

  @Column('text', { nullable: true })
  rack: string | null;

  /** From 1, the uppermost. */
  @Column('integer', { nullable: true })
  shelf: number | null;

  /** From 1, the leftmost. */
  @Column('integer', { nullable: true })
  position: number | null;

  @Column('text', { nullable: true })
  note: string | null;
}

/** That a fish or a spawn was in a vessel, from when to when. */
@Entity('vessel_stay')
@Check('vessel_stay_of_one', '(fish_id IS NULL) <> (spawn_id IS NULL)')
@Check('vessel_stay_company', `company IN ('sorority', 'pair', 'grow_out')`)
@Index('vessel_stay_by_vessel', ['vesselId', 'cameAt'])
@Index('vessel_stay_by_fish', ['fishId', 'cameAt'])
@Index('vessel_stay_by_spawn', ['spawnId', 'cameAt'])
@Index('vessel_stay_of_fish_now', ['fishId'], { unique: true, where: 'left_at IS NULL' })
@Index('vessel_stay_of_spawn_now', ['spawnId'], { unique: true, where: 'left_at IS NULL' })
export class VesselStayRow {
  @PrimaryColumn('uuid')
  id: string;

  @ForeignKey('VesselRow', { name: 'vessel_stay_vessel', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'vessel_id' })
  vesselId: string;

  @ForeignKey('FishRow', { name: 'vessel_stay_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id', nullable: true })
  fishId: string | null;

  @ForeignKey('SpawnRow', { name: 'vessel_stay_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id', nullable: true })
  spawnId: string | null;

  @Column('timestamptz', { name: 'came_at' })
  cameAt: Date;

  @Column('timestamptz', { name: 'left_at', nullable: true })
  leftAt: Date | null;

  @Column('text', { nullable: true })
  company: VesselCompany | null;

  /** Who moved it there. */
  @Column('text', { name: 'by_name' })
  byName: string;
}
