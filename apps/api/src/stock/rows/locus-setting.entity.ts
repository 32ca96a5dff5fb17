import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';
import { storedJson } from '../../database/stored-json.js';
import { frequenciesShape } from './record-shapes.js';

/** What is taken for granted of a locus in a line: allele frequencies of its founders, and how often it is misread. */
@Entity('locus_setting')
@Index('locus_setting_of_line_once', ['lineId', 'locusId'], {
  unique: true,
  where: 'withdrawn_at IS NULL AND line_id IS NOT NULL',
})
@Index('locus_setting_general_once', ['locusId'], {
  unique: true,
  where: 'withdrawn_at IS NULL AND line_id IS NULL',
})
export class LocusSettingRow extends RecordRow {
  /** Null: for every fish whose line has no setting of its own. */
  @ForeignKey('LineRow', { name: 'locus_setting_line', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'line_id', nullable: true })
  lineId: string | null;

  @Column('text', { name: 'locus_id' })
  locusId: string;

  /** By allele id, summing to 1; null: every allele equally common. */
  @Column('jsonb', {
    nullable: true,
    transformer: storedJson('set of frequencies', frequenciesShape, () => null),
  })
  frequencies: Record<string, number> | null;

  /** Share of fish put into a wrong class; null: the default. */
  @Column('double precision', { name: 'mis_scoring', nullable: true })
  misScoring: number | null;
}
