import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

@Entity('genotype')
@Index('genotype_in_force_once', ['fishId', 'locusId'], {
  unique: true,
  where: 'withdrawn_at IS NULL',
})
export class GenotypeRow extends RecordRow {
  @ForeignKey('FishRow', { name: 'genotype_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id' })
  fishId: string;

  @Column('text', { name: 'locus_id' })
  locusId: string;

  @Column('text')
  genotype: string;

  @Column('text')
  basis: string;

  @Column('text', { nullable: true })
  note: string | null;
}
