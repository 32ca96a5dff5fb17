import type { Repairs } from '@linewright/repair';
import { Column, CreateDateColumn, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import type { ColumnChoice } from './import-column-choice.js';

/** A large pedigree file that is looked at or taken in by a long computation, so that any process can go about it. */
@Entity('import_run')
export class ImportRunRow {
  @PrimaryColumn('uuid')
  id: string;

  @Index('import_run_by_person')
  @ForeignKey('PersonRow', { name: 'import_run_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  /** `look` or `take`. */
  @Column('text')
  purpose: string;

  @Column('text', { name: 'file_name' })
  fileName: string;

  /** Null: read as the headers, or the last file of the same columns, suggest. */
  @Column('jsonb', { nullable: true })
  columns: ColumnChoice[] | null;

  /** What was decided about the file. */
  @Column('jsonb', { nullable: true })
  repairs: Repairs | null;

  /** IANA name of the zone it was sent from, for the day of import; null in files sent before zones were noted. */
  @Column('text', { nullable: true })
  zone: string | null;

  /** The text, gzipped; null once it was taken in. */
  @Column('bytea', { nullable: true, select: false })
  body: Buffer | null;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;
}
