import { Column, Entity, ForeignKey, Unique } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

@Entity('line')
@Unique('line_code_once', ['keeperId', 'code'])
export class LineRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'line_keeper', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'keeper_id' })
  keeperId: string;

  @Column({ type: 'text', collation: 'C' })
  code: string;

  @Column('text')
  name: string;

  @Column('text', { nullable: true })
  goal: string | null;
}
