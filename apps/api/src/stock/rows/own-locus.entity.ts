import type { Locus } from '@linewright/heredity';
import { Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';
import { storedLocus } from './locus-shape.js';

/** A locus that the person defined. `revision` is the version of its definition; a withdrawn one stays readable. */
@Entity('own_locus')
@Unique('own_locus_once', ['locusId'])
export class OwnLocusRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'own_locus_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  /** What genotypes and counts call it; never one of the catalogue's. */
  @Column({ type: 'text', name: 'locus_id', collation: 'C' })
  locusId: string;

  @Column('jsonb', { transformer: storedLocus })
  definition: Locus;
}

/** Every version a person's locus has had; written once, never changed. */
@Entity('own_locus_version')
export class OwnLocusVersionRow {
  @PrimaryColumn('uuid', { name: 'own_locus_id' })
  @ForeignKey('OwnLocusRow', { name: 'own_locus_version_of', deferrable: 'INITIALLY DEFERRED' })
  ownLocusId: string;

  @PrimaryColumn('integer')
  version: number;

  @Column('jsonb', { transformer: storedLocus })
  definition: Locus;

  @Column('text', { name: 'by_name' })
  byName: string;

  /** The account that did it. */
  @Column('uuid', { name: 'by_account_id', nullable: true, default: () => 'door_account()' })
  byAccountId: string | null;

  @Index('own_locus_version_at')
  @Column('timestamptz')
  at: Date;
}
