import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

/** One row a person: by what readings are judged, and the water changes are made with. */
@Entity('water_rule')
export class WaterRuleRow {
  @ForeignKey('PersonRow', { name: 'water_rule_person', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'person_id' })
  personId: string;

  @Column('double precision', { name: 'limit_value' })
  limitValue: number;

  @Column('text', { name: 'limit_unit' })
  limitUnit: string;

  @Column('integer', { name: 'trust_hours' })
  trustHours: number;

  /** mg/L as N. */
  @Column('double precision', { name: 'source_total', default: 0 })
  sourceTotal: number;

  @Column('double precision', { name: 'source_ph', nullable: true })
  sourcePh: number | null;

  @Column('double precision', { name: 'source_celsius', nullable: true })
  sourceCelsius: number | null;
}
