import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

/** What was seen on one fish at one locus, on a day. A later look is a new row: what was seen stays seen. */
@Entity('phenotype')
@Index('phenotype_by_fish', ['fishId', 'locusId'])
export class PhenotypeRow extends RecordRow {
  @ForeignKey('FishRow', { name: 'phenotype_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id' })
  fishId: string;

  @Column('text', { name: 'locus_id' })
  locusId: string;

  /** Id of the phenotype in the locus, such as `double`. */
  @Column('text')
  phenotype: string;

  @Column('date', { name: 'seen_on' })
  seenOn: string;

  @Column('integer', { name: 'age_days', nullable: true })
  ageDays: number | null;

  @Column('text', { nullable: true })
  note: string | null;
}
