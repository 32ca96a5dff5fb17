import type { LinePurpose } from '@linewright/mating';
import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';
import { storedJson } from '../../database/stored-json.js';
import { linePurposeShape, unreadablePurpose } from './purpose-shape.js';

/** A version of what a line is for; written once, never changed. The highest one holds. */
@Entity('line_purpose')
export class LinePurposeRow {
  @ForeignKey('LineRow', { name: 'line_purpose_line', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'line_id' })
  lineId: string;

  @PrimaryColumn('integer')
  version: number;

  @Column('jsonb', {
    transformer: storedJson('purpose of a line', linePurposeShape, unreadablePurpose),
  })
  content: LinePurpose;

  /** Why it was said. */
  @Column('text', { nullable: true })
  note: string | null;

  @Column('text', { name: 'by_name' })
  byName: string;

  /** The account that did it. */
  @Column('uuid', { name: 'by_account_id', nullable: true, default: () => 'door_account()' })
  byAccountId: string | null;

  @Column('timestamptz')
  at: Date;
}
