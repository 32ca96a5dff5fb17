import type { Repairs } from '@linewright/repair';
import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';
import type { ColumnChoice } from './import-column-choice.js';

/** What a person decided about the last file with the same columns, for the next one. */
@Entity('import_shape')
export class ImportShapeRow {
  @ForeignKey('PersonRow', { name: 'import_shape_person', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'person_id' })
  personId: string;

  /** Digest of the names of the columns. */
  @PrimaryColumn('text')
  shape: string;

  @Column('text', { name: 'file_name' })
  fileName: string;

  @Column('timestamptz')
  at: Date;

  @Column('jsonb')
  columns: ColumnChoice[];

  @Column('jsonb')
  repairs: Repairs;
}
