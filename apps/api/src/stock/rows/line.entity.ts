import { Column, Entity, ForeignKey, Unique } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

@Entity('line')
@Unique('line_code_once', ['personId', 'code'])
export class LineRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'line_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column({ type: 'text', collation: 'C' })
  code: string;

  @Column('text')
  name: string;

  @Column('text', { nullable: true })
  goal: string | null;
}
