import { type CareStep, defaultTemplate } from '@linewright/care';
import { Column, CreateDateColumn, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';
import { storedJson } from '../../database/stored-json.js';
import { careStepsShape } from './record-shapes.js';

/** A step of care that was done or left out; events of the spawn itself are in `spawn_event`. */
@Entity('care_record')
export class CareRecordRow extends RecordRow {
  @Index('care_record_by_spawn')
  @ForeignKey('SpawnRow', { name: 'care_record_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id' })
  spawnId: string;

  @Column('text')
  step: string;

  @Column('timestamptz')
  at: Date;

  @Column('text')
  action: string;

  @Column('text', { nullable: true })
  note: string | null;
}

/** A person's own calendar for one line; its revision is its version. */
@Entity('care_template')
@Index('care_template_in_force_once', ['personId', 'lineId'], {
  unique: true,
  where: 'withdrawn_at IS NULL',
})
export class CareTemplateRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'care_template_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @ForeignKey('LineRow', { name: 'care_template_line', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @Column('text')
  name: string;

  @Column('jsonb', {
    // The built-in calendar stands in for one that cannot be read.
    transformer: storedJson('calendar', careStepsShape, () => [...defaultTemplate.steps]),
  })
  steps: CareStep[];
}

/** The address under which a calendar program may read a person's tasks. Only a hash of its secret is stored. */
@Entity('calendar_address')
export class CalendarAddressRow {
  @ForeignKey('PersonRow', { name: 'calendar_address_person', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'person_id' })
  personId: string;

  @Index('calendar_address_secret_once', { unique: true })
  @Column('text', { name: 'secret_hash' })
  secretHash: string;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;
}
